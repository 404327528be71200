/** Turns of the event loop between an engine and its page. */
const soon = (run: () => void): void => void setTimeout(run, 0);

/** What is heard of by events. */
class Told extends EventTarget {
  tell(type: string): void {
    this.dispatchEvent(new Event(type));
  }
}
class Request extends Told {
  result: unknown;
  error: Error | null = null;
}
class Transaction extends Told {
  error: Error | null = null;
  readonly objectStoreNames = ["things"];
}
class Database extends Told {}
class Store {}
class Cursor {}
class Index {}

/** The names by which a page knows the parts of an engine. */
export const ENGINE_PARTS = {
  IDBRequest: Request,
  IDBTransaction: Transaction,
  IDBDatabase: Database,
  IDBObjectStore: Store,
  IDBCursor: Cursor,
  IDBIndex: Index,
} as const;

/** One open connection, as the engine sees it. */
interface Connection {
  closed: boolean;
  readonly face: Database & { readonly close: () => void };
}

/** IndexedDB by its specification as far as it is used, with an engine that can be told to fail. */
export interface Engine {
  /** What lies in the one store. */
  readonly things: Map<string, unknown>;
  readonly connections: Connection[];
  /** Opening never answers, until `answer` is called. */
  hangs: boolean;
  /** Another page is in the midst of something, so that no transaction begins until `answer` is called. */
  isBusy: boolean;
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
    const transaction = Object.assign(new Transaction(), {
      objectStore: () => store,
      commit: () => {
        isComplete = true;
      },
      abort: () => {
        if (isOver || isComplete) throw new DOMException("the transaction is over", "InvalidStateError");
        abort(null);
      },
    });
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
      end(() => soon(() => transaction.tell("abort")));
    };
    const commit = (): void => {
      if (engine.fails.commit) {
        abort(engine.fails.commit);
        return;
      }
      engine.things.clear();
      for (const [key, value] of staged) engine.things.set(key, value);
      end(() => transaction.tell("complete"));
    };
    const step = (): void => {
      if (isOver) return;
      // Of a page that is gone nothing counts that it might have gone on with.
      if (engine.gone && !isComplete) {
        end(() => {});
        return;
      }
      const next = queue.shift();
      if (next) {
        next();
        // Whoever heard of it may ask for more until then.
        if (!isOver) soon(step);
        return;
      }
      isComplete = true;
      soon(commit);
    };
    const start = (): void => {
      if (engine.gone) return;
      if (engine.isBusy) {
        waiting.push(start);
        return;
      }
      if (isOver) return;
      staged = new Map(engine.things);
      soon(step);
    };
    inTurn.push(start);
    if (inTurn.length === 1) start();
    const ask = (run: () => unknown, keys: readonly string[] = []): Request => {
      if (isOver || isComplete) throw new DOMException("the transaction is over", "TransactionInactiveError");
      const request = new Request();
      queue.push(() => {
        const isDamaged = keys.some((key) => engine.damaged.has(key));
        const failure = isDamaged ? new DOMException("of the engine", "DataError") : engine.fails.request;
        if (failure) {
          request.error = failure;
          request.tell("error");
          transaction.tell("error");
          return abort(failure);
        }
        request.result = run();
        if (!engine.gone) request.tell("success");
      });
      return request;
    };
    const change = (run: () => unknown): Request => {
      if (mode !== "readwrite") throw new DOMException("only read", "ReadOnlyError");
      return ask(run);
    };
    const store = Object.assign(new Store(), {
      transaction,
      get: (key: string) => ask(() => staged.get(key), [key]),
      getAll: () => ask(() => [...staged.values()], [...staged.keys()]),
      getAllKeys: () => ask(() => [...staged.keys()]),
      put: (value: unknown, key: string) => {
        const copy = structuredClone(value);
        return change(() => staged.set(key, copy));
      },
      delete: (key: string) => change(() => void staged.delete(key)),
    });
    return transaction;
  };

  const connect = (): unknown => {
    const face = Object.assign(new Database(), {
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
    });
    const connection: Connection = { closed: false, face };
    engine.connections.push(connection);
    return face;
  };

  const open = () => {
    const request = new Request();
    const answer = (): void => {
      if (engine.fails.open) {
        request.error = engine.fails.open;
        request.tell("error");
        return;
      }
      request.result = connect();
      if (isNew) request.tell("upgradeneeded");
      request.tell("success");
    };
    if (engine.hangs) waiting.push(answer);
    else soon(answer);
    return request;
  };

  const engine: Engine = {
    things: new Map(),
    connections: [],
    hangs: false,
    isBusy: false,
    answer: () => {
      engine.hangs = false;
      engine.isBusy = false;
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
