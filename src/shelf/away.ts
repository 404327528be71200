import { runInWorker } from "../background/run";
import { refused } from "../core/lib/result";
import { describeWorkerTrouble } from "../text/worker-fault";
import type { Received } from "./received";

/** What is to be read: files that the user chose, or a link that carries something. */
export type ShelfTask =
  | { readonly kind: "files"; readonly files: readonly File[] }
  | { readonly kind: "link"; readonly text: string };

/** What the worker says: one thing, or that there are no more. One at a time, so that no answer holds the page up. */
export type FileReply = { readonly kind: "thing"; readonly read: Received } | { readonly kind: "end" };

const ownWorker = (): Worker =>
  new Worker(new URL("./worker/worker.ts", import.meta.url), { type: "module" });

/**
 * Reads files or a link off the page's thread, however large it is. One worker a task, ended with it. Never rejects:
 * what is wrong is said.
 * @param makeWorker given where a page has its own rules for the addresses of scripts
 * @returns everything in it, read or refused
 */
export const readAway = (task: ShelfTask, makeWorker = ownWorker): Promise<readonly Received[]> =>
  new Promise((resolve) => {
    const things: Received[] = [];
    runInWorker<FileReply>({
      make: makeWorker,
      message: task,
      heard: (reply) => {
        if (reply.kind === "thing") things.push(reply.read);
        else resolve(things);
        return reply.kind === "end";
      },
      failed: (fault) => resolve([...things, refused(describeWorkerTrouble("Reading", fault))]),
    });
  });
