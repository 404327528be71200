/** Turns of the event loop between an engine and its page. */
const soon = (run: () => void): void => void setTimeout(run, 0);

type Request = Pick<IDBRequest, "result" | "error"> & { onsuccess?: () => void; onerror?: () => void };

/** One open connection, as the engine sees it. */
interface Connection {
  closed: boolean;
  readonly face: { onversionchange?: () => void; onclose?: () => void; close: () => void };
}

/** IndexedDB by its specification as far as it is used, with an engine that can be told to fail. */
export interface Engine {
  /** What lies in the one store. */
  readonly things: Map<string, unknown>;
  readonly connections: Connection[];
  /** Opening never answers, until `answer` is called. */
  hangs: boolean;
  readonly answer: () => void;
  /** Opening, every request, or every commit fails with this. */
  readonly fails: { open: Error | null; request: Error | null; commit: Error | null };
  /** Keys under which the engine cannot read what lies there. */
  readonly damaged: Set<string>;
  /** The next transactions are refused, so many times, as with a connection that broke without a word. */
  broken: number;
  /** The page is gone: nobody hears of anything; what had not begun, or what it had not completed, is taken back. */
  gone: boolean;
  /** Durability that each transaction was asked for. */
  readonly durability: (string | undefined)[];
  readonly indexedDB: IDBFactory;
}

/** An engine with nothing in it. */
export const newEngine = (): Engine => {
  const waiting: (() => void)[] = [];
  /** Transactions that are not over, in the order in which they were made: each waits for the one before. */
  const inTurn: (() => void)[] = [];
  let isNew = true;

  const transactionOf = (mode: IDBTransactionMode) => {
    let staged = new Map<string, unknown>();
    const queue: (() => void)[] = [];
    const transaction = {
      error: null as Error | null,
      oncomplete: () => {},
      onabort: () => {},
      objectStore: () => store,
      commit: () => {
        isComplete = true;
      },
      abort: () => {
        if (isOver || isComplete) throw new DOMException("the transaction is over", "InvalidStateError");
        abort(null);
      },
    };
    let isOver = false;
    /** The page has said that nothing more comes. */
    let isComplete = false;
    const end = (tell: () => void): void => {
      isOver = true;
      const isFirst = inTurn[0] === start;
      inTurn.splice(inTurn.indexOf(start), 1);
      if (isFirst) inTurn[0]?.();
      tell();
    };
    const abort = (error: Error | null): void => {
      transaction.error = error;
      end(() => soon(() => transaction.onabort()));
    };
    const commit = (): void => {
      if (engine.fails.commit) {
        abort(engine.fails.commit);
        return;
      }
      engine.things.clear();
      for (const [key, value] of staged) engine.things.set(key, value);
      end(() => transaction.oncomplete());
    };
    const step = (): void => {
      if (isOver) return;
      // Of a page that is gone nothing counts that it might have gone on with.
      if (engine.gone && !isComplete) {
        end(() => {});
        return;
      }
      queue.shift()?.();
      if (isOver) return;
      isComplete ||= queue.length === 0;
      soon(queue.length > 0 ? step : commit);
    };
    const start = (): void => {
      if (engine.gone) return;
      staged = new Map(engine.things);
      soon(step);
    };
    inTurn.push(start);
    if (inTurn.length === 1) start();
    const ask = (run: () => unknown, keys: readonly string[] = []): Request => {
      if (isOver || isComplete) throw new DOMException("the transaction is over", "TransactionInactiveError");
      const request = { result: undefined, error: null } as Request;
      queue.push(() => {
        const isDamaged = keys.some((key) => engine.damaged.has(key));
        const failure = isDamaged ? new DOMException("of the engine", "DataError") : engine.fails.request;
        if (failure) {
          Object.assign(request, { error: failure });
          request.onerror?.();
          return abort(failure);
        }
        Object.assign(request, { result: run() });
        if (engine.gone) return;
        try {
          request.onsuccess?.();
        } catch (error) {
          abort(new DOMException("a handler threw", "AbortError"));
          throw error;
        }
      });
      return request;
    };
    const change = (run: () => unknown): Request => {
      if (mode !== "readwrite") throw new DOMException("only read", "ReadOnlyError");
      return ask(run);
    };
    const store = {
      transaction,
      get: (key: string) => ask(() => staged.get(key), [key]),
      getAll: () => ask(() => [...staged.values()], [...staged.keys()]),
      getAllKeys: () => ask(() => [...staged.keys()]),
      put: (value: unknown, key: string) => {
        const copy = structuredClone(value);
        return change(() => staged.set(key, copy));
      },
      delete: (key: string) => change(() => void staged.delete(key)),
    };
    return transaction;
  };

  const connect = (): unknown => {
    const face = {
      close: () => {
        connection.closed = true;
      },
      createObjectStore: () => {
        isNew = false;
      },
      transaction: (_: string, mode: IDBTransactionMode, options: IDBTransactionOptions) => {
        if (isNew) throw new DOMException("no such store", "NotFoundError");
        if (connection.closed || engine.broken > 0) {
          engine.broken -= 1;
          throw new DOMException("the connection is closing", "InvalidStateError");
        }
        engine.durability.push(options.durability);
        return transactionOf(mode);
      },
    };
    const connection: Connection = { closed: false, face };
    engine.connections.push(connection);
    return face;
  };

  const open = () => {
    const request = { result: undefined, error: null } as Request & { onupgradeneeded?: () => void };
    const answer = (): void => {
      if (engine.fails.open) {
        Object.assign(request, { error: engine.fails.open });
        request.onerror?.();
        return;
      }
      Object.assign(request, { result: connect() });
      if (isNew) request.onupgradeneeded?.();
      request.onsuccess?.();
    };
    if (engine.hangs) waiting.push(answer);
    else soon(answer);
    return request;
  };

  const engine: Engine = {
    things: new Map(),
    connections: [],
    hangs: false,
    answer: () => {
      for (const answer of waiting.splice(0)) answer();
    },
    fails: { open: null, request: null, commit: null },
    damaged: new Set(),
    broken: 0,
    gone: false,
    durability: [],
    indexedDB: { open } as unknown as IDBFactory,
  };
  return engine;
};
