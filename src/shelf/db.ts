import type { Cupboard } from "./cupboard";

const STORE = "things";
/** Stands in for what the engine cannot give back. */
const DAMAGED = { name: "Damaged entry", text: "" };
/** An engine that does not answer for so long is taken as having no storage, ms. */
const PATIENCE = 4000;

const asked = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

const connect = async (name: string): Promise<IDBDatabase> => {
  if (!globalThis.indexedDB) throw new Error("this browser keeps no data for pages");
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(STORE);
  const answer = asked(request);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => {
      reject(new Error("the browser’s storage does not answer"));
      // Should it come after all, nobody uses it, and open it would stand in the way of others.
      answer.then(
        (database) => database.close(),
        () => {},
      );
    }, PATIENCE);
  });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
};

/** Handed to the system without waiting for the disk: outlives a killed browser, and no write holds up the next by 100 ms. */
const DURABILITY: IDBTransactionOptions = { durability: "relaxed" };

const giveUp = (transaction: IDBTransaction): void => {
  try {
    transaction.abort();
  } catch {
    // It is being committed, or over, and was not heard of yet.
  }
};

/** The browser's IndexedDB as a cupboard. A connection that breaks is opened again when next needed. */
export const indexedCupboard = async (name: string): Promise<Cupboard> => {
  let open: Promise<IDBDatabase> | null = null;
  /** Changes that wait for an answer. */
  const underWay = new Set<IDBTransaction>();
  const forget = (broken: Promise<IDBDatabase>): void => {
    if (open === broken) open = null;
    broken.then((database) => database.close()).catch(() => {});
  };
  const connected = (): Promise<IDBDatabase> => {
    if (open) return open;
    const mine = connect(name).then((database) => {
      database.onversionchange = () => forget(mine);
      database.onclose = () => forget(mine);
      return database;
    });
    open = mine;
    return mine;
  };
  /** Runs a transaction; done only when it is committed, not when its last request is. */
  const within = async <T>(
    mode: IDBTransactionMode,
    work: (store: IDBObjectStore) => Promise<T>,
    isLastTry = false,
  ): Promise<T> => {
    const used = connected();
    let transaction: IDBTransaction;
    try {
      transaction = (await used).transaction(STORE, mode, DURABILITY);
    } catch (error) {
      forget(used);
      if (isLastTry) throw error;
      // It may have broken without a word, as while a phone slept.
      return within(mode, work, true);
    }
    const done = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error ?? new Error("the browser took the change back"));
    });
    try {
      const [result] = await Promise.all([work(transaction.objectStore(STORE)), done]);
      return result;
    } catch (error) {
      forget(used);
      throw error;
    } finally {
      underWay.delete(transaction);
    }
  };
  const get = (key: string): Promise<unknown> => within("readonly", (store) => asked(store.get(key)));
  const allAtOnce = (): Promise<ReadonlyMap<string, unknown>> =>
    within("readonly", async (store) => {
      const [keys, values] = await Promise.all([asked(store.getAllKeys()), asked(store.getAll())]);
      return new Map(keys.map((key, at) => [String(key), values[at]]));
    });
  /** Each by itself, so that one that is damaged keeps none of the others away. */
  const eachAlone = async (): Promise<ReadonlyMap<string, unknown>> => {
    const keys = await within("readonly", (store) => asked(store.getAllKeys()));
    const read = await Promise.allSettled(keys.map((key) => get(String(key))));
    const [failure] = read.filter((one) => one.status === "rejected");
    if (failure && read.every((one) => one.status === "rejected")) throw failure.reason;
    return new Map(
      read.map((one, at) => [String(keys[at]), one.status === "fulfilled" ? one.value : DAMAGED]),
    );
  };
  await connected();
  return {
    all: () => allAtOnce().catch(eachAlone),
    get,
    update: (key, change, guess) =>
      within(
        "readwrite",
        (store) =>
          new Promise((resolve, reject) => {
            const put = (was: unknown): void => {
              const next = change(was);
              const request = next === undefined ? store.delete(key) : store.put(next, key);
              request.onerror = () => reject(request.error);
              request.onsuccess = () => resolve();
            };
            if (guess !== undefined) {
              // Until the page is gone they would hold this one up; of those that it replaces nothing is lost.
              for (const waiting of underWay) giveUp(waiting);
              put(guess);
              // Without it the browser waits for a page that is gone, and then takes the change back.
              store.transaction.commit();
              return;
            }
            underWay.add(store.transaction);
            const get = store.get(key);
            get.onerror = () => reject(get.error);
            // Asked for in the same turn, so that the transaction stays open and nobody comes in between.
            get.onsuccess = () => {
              try {
                put(get.result);
              } catch (error) {
                reject(error);
              }
            };
          }),
      ),
  };
};
