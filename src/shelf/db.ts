import { type IDBPDatabase, type IDBPObjectStore, type IDBPTransaction, openDB } from "idb";
import type { Cupboard } from "./cupboard";
import { patiently, Unanswered } from "./patience";

const STORE = "things";
/** Stands in for what the engine cannot give back. */
const DAMAGED = { name: "Damaged entry", text: "" };

type Mode = "readonly" | "readwrite";
type Transaction = IDBPTransaction<unknown, [typeof STORE], Mode>;
type Store<M extends Mode> = IDBPObjectStore<unknown, [typeof STORE], typeof STORE, M>;

/** @param isLost called when the browser closes it or another page wants it closed */
const connect = async (name: string, isLost: () => void): Promise<IDBPDatabase> => {
  if (!globalThis.indexedDB) throw new Error("this browser keeps no data for pages");
  const answer = openDB(name, 1, {
    upgrade: (database) => void database.createObjectStore(STORE),
    blocking: isLost,
    terminated: isLost,
  });
  // Should it come after all, nobody uses it, and open it would stand in the way of others.
  const dismiss = (): void => void answer.then((database) => database.close()).catch(() => {});
  return patiently(answer, dismiss);
};

/** Handed to the system without waiting for the disk: outlives a killed browser, and no write holds up the next by 100 ms. */
const DURABILITY: IDBTransactionOptions = { durability: "relaxed" };

const giveUp = (transaction: Pick<Transaction, "abort">): void => {
  try {
    transaction.abort();
  } catch {
    // It is being committed, or over, and was not heard of yet.
  }
};

/** The browser's IndexedDB as a cupboard. A connection that breaks is opened again when next needed. */
export const indexedCupboard = async (name: string): Promise<Cupboard> => {
  let open: Promise<IDBPDatabase> | null = null;
  /** Changes that wait for an answer. */
  const underWay = new Set<Pick<Transaction, "abort">>();
  const forget = (broken: Promise<IDBPDatabase>): void => {
    if (open === broken) open = null;
    broken.then((database) => database.close()).catch(() => {});
  };
  const connected = (): Promise<IDBPDatabase> => {
    if (open) return open;
    const mine = connect(name, () => forget(mine));
    open = mine;
    return mine;
  };
  /** Runs a transaction; done only when it is committed, not when its last request is. */
  const within = async <T, M extends Mode>(
    mode: M,
    work: (store: Store<M>, transaction: IDBPTransaction<unknown, [typeof STORE], M>) => Promise<T>,
    isLastTry = false,
  ): Promise<T> => {
    const used = connected();
    let transaction: IDBPTransaction<unknown, [typeof STORE], M>;
    try {
      transaction = (await used).transaction(STORE, mode, DURABILITY);
    } catch (error) {
      forget(used);
      if (isLastTry) throw error;
      // It may have broken without a word, as while a phone slept.
      return within(mode, work, true);
    }
    // A request that failed says more than the transaction that it ended.
    transaction.done.catch(() => {});
    const worked = async (): Promise<T> => {
      const result = await work(transaction.store, transaction);
      await transaction.done;
      return result;
    };
    try {
      return await patiently(worked(), () => giveUp(transaction));
    } catch (error) {
      forget(used);
      throw error;
    } finally {
      underWay.delete(transaction);
    }
  };
  const get = (key: string): Promise<unknown> => within("readonly", (store) => store.get(key));
  const allAtOnce = (): Promise<ReadonlyMap<string, unknown>> =>
    within("readonly", async (store) => {
      const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
      return new Map(keys.map((key, at) => [String(key), values[at]]));
    });
  /** Each by itself, so that one that is damaged keeps none of the others away. */
  const eachAlone = async (): Promise<ReadonlyMap<string, unknown>> => {
    const keys = await within("readonly", (store) => store.getAllKeys());
    const read = await Promise.allSettled(keys.map((key) => get(String(key))));
    const [failure] = read.filter((one) => one.status === "rejected");
    if (failure && read.every((one) => one.status === "rejected")) throw failure.reason;
    return new Map(
      read.map((one, at) => [String(keys[at]), one.status === "fulfilled" ? one.value : DAMAGED]),
    );
  };
  await connected();
  return {
    all: () =>
      allAtOnce().catch((error: unknown) => {
        // Whoever does not answer is not asked once more for each.
        if (error instanceof Unanswered) throw error;
        return eachAlone();
      }),
    get,
    update: (key, change, guess) =>
      within("readwrite", async (store, transaction) => {
        const put = (was: unknown): Promise<unknown> => {
          const next = change(was);
          return next === undefined ? store.delete(key) : store.put(next, key);
        };
        if (guess !== undefined) {
          // Until the page is gone they would hold this one up; of those that it replaces nothing is lost.
          for (const waiting of underWay) giveUp(waiting);
          const last = put(guess);
          // Without it the browser waits for a page that is gone, and then takes the change back.
          transaction.commit();
          await last;
          return;
        }
        underWay.add(transaction);
        // In the turn of the answer, so that the transaction stays open and nobody comes in between.
        await put(await store.get(key));
      }),
  };
};
