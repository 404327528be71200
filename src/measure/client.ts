import { clause, reasonOf } from "../core/words";
import type { Job, Outcome, Reply } from "./protocol";

/** What the page wants to know and may decide. */
export interface MeasureOptions {
  /** Told now and then how far it is, 0…1. */
  readonly progress?: (share: number) => void;
  /** Starts the worker; given where a page has its own rules for the addresses of scripts. */
  readonly makeWorker?: () => Worker;
}

const ownWorker = (): Worker =>
  new Worker(new URL("./worker/worker.ts", import.meta.url), { type: "module" });

/**
 * Measures a job off the page's thread. One worker a job, ended with it.
 * @param signal cancels: the worker is ended at once, and the promise rejects with the signal's reason
 * @returns what was measured, or why it could not be; rejects only when cancelled
 */
export const measure = (signal: AbortSignal, job: Job, options: MeasureOptions = {}): Promise<Outcome> =>
  new Promise((resolve, reject) => {
    if (signal.aborted) {
      reject(signal.reason);
      return;
    }
    let worker: Worker;
    const end = (): void => {
      worker.terminate();
      signal.removeEventListener("abort", cancel);
    };
    const cancel = (): void => {
      end();
      reject(signal.reason);
    };
    const fail = (why: string): void => {
      end();
      resolve({ kind: "refused", why: [why] });
    };
    try {
      worker = (options.makeWorker ?? ownWorker)();
    } catch (fault) {
      resolve({ kind: "refused", why: [`Measuring could not be started: ${reasonOf(fault)}.`] });
      return;
    }
    signal.addEventListener("abort", cancel);
    worker.onmessage = ({ data }: MessageEvent<Reply>) => {
      if (data.kind === "progress") {
        options.progress?.(data.share);
        return;
      }
      end();
      resolve(data);
    };
    worker.onerror = (event) =>
      fail(
        `Measuring stopped: ${clause(event.message) || "its program could not be loaded"}. Reload and try again.`,
      );
    worker.onmessageerror = () => fail("Measuring stopped: its answer could not be read.");
    worker.postMessage(job);
  });
