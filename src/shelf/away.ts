import { describeWorkerFault, runInWorker } from "../background/run";
import type { ReadSetup } from "../document/read-setup";

/** What is to be read: files that the user chose, or a link with a setup in it. */
export type ShelfTask =
  | { readonly kind: "files"; readonly files: readonly File[] }
  | { readonly kind: "link"; readonly text: string };

/** What the worker says: a setup, or that there are no more. One at a time, so that no answer holds the page up. */
export type Reply = { readonly kind: "setup"; readonly read: ReadSetup } | { readonly kind: "end" };

const ownWorker = (): Worker =>
  new Worker(new URL("./worker/worker.ts", import.meta.url), { type: "module" });

/**
 * Reads files or a link off the page's thread, however large it is. One worker a task, ended with it. Never rejects:
 * what is wrong is said.
 * @param makeWorker given where a page has its own rules for the addresses of scripts
 * @returns every setup in it, read or refused
 */
export const readAway = (task: ShelfTask, makeWorker = ownWorker): Promise<readonly ReadSetup[]> =>
  new Promise((resolve) => {
    const setups: ReadSetup[] = [];
    runInWorker<Reply>({
      make: makeWorker,
      message: task,
      heard: (reply) => {
        if (reply.kind === "setup") setups.push(reply.read);
        else resolve(setups);
        return reply.kind === "end";
      },
      failed: (fault) => resolve([...setups, { ok: false, why: describeWorkerFault("Reading", fault) }]),
    });
  });
