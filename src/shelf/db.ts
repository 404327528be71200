import type { Cupboard } from "./cupboard";

const STORE = "things";
/** An engine that does not answer for so long is taken as having no storage, ms. */
const PATIENCE = 4000;

const asked = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

const connect = (name: string): Promise<IDBDatabase> => {
  if (!globalThis.indexedDB) return Promise.reject(new Error("this browser keeps no data for pages"));
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(STORE);
  const late = new Promise<never>((_, reject) => {
    setTimeout(() => reject(new Error("the browser's storage does not answer")), PATIENCE);
  });
  return Promise.race([asked(request), late]);
};

/** Handed to the system without waiting for the disk: outlives a killed browser, and no write holds up the next by 100 ms. */
const DURABILITY: IDBTransactionOptions = { durability: "relaxed" };

/** The browser's IndexedDB as a cupboard. A connection that breaks is opened again when next needed. */
export const indexedCupboard = async (name: string): Promise<Cupboard> => {
  let open: IDBDatabase | null = await connect(name);
  const forget = (): void => {
    open?.close();
    open = null;
  };
  /** Runs a transaction; done only when it is committed, not when its last request is. */
  const within = async <T>(
    mode: IDBTransactionMode,
    work: (store: IDBObjectStore) => Promise<T>,
  ): Promise<T> => {
    open ??= await connect(name);
    open.onversionchange = forget;
    open.onclose = forget;
    let transaction: IDBTransaction;
    try {
      transaction = open.transaction(STORE, mode, DURABILITY);
    } catch (error) {
      forget();
      throw error;
    }
    const done = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error ?? new Error("the browser took the change back"));
    });
    const [result] = await Promise.all([work(transaction.objectStore(STORE)), done]);
    return result;
  };
  return {
    all: () =>
      within("readonly", async (store) => {
        const [keys, values] = await Promise.all([asked(store.getAllKeys()), asked(store.getAll())]);
        return new Map(keys.map((key, at) => [String(key), values[at]]));
      }),
    get: (key) => within("readonly", (store) => asked(store.get(key))),
    update: (key, change) =>
      within(
        "readwrite",
        (store) =>
          new Promise((resolve, reject) => {
            const get = store.get(key);
            get.onerror = () => reject(get.error);
            // Asked for in the same turn, so that the transaction stays open and nobody comes in between.
            get.onsuccess = () => {
              const next = change(get.result);
              const put = next === undefined ? store.delete(key) : store.put(next, key);
              put.onerror = () => reject(put.error);
              put.onsuccess = () => resolve();
            };
          }),
      ),
  };
};
