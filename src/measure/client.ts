import { runInWorker, type WorkerFault } from "../background/run";
import type { Seconds } from "../core/model/units";
import type { Excerpt } from "./excerpt";
import type { Answers, Job, JobOutcome, Look, MeasureReply, MeasureTask } from "./protocol";

/** What the page wants to know and may decide. */
export interface MeasureOptions {
  /** Told now and then how far it is, 0…1. */
  readonly progress?: (share: number) => void;
  /** Starts the worker; given where a page has its own rules for the addresses of scripts. */
  readonly makeWorker?: () => Worker;
}

const ownWorker = (): Worker =>
  new Worker(new URL("./worker/worker.ts", import.meta.url), { type: "module" });

/** Longest that a file is looked at, ms: going through an hour of it takes a phone some seconds. */
const LOOK_MS = 30_000;

/**
 * Asks a worker of its own, which is ended with the answer.
 * @param signal cancels: the worker is ended at once, and the promise rejects with the signal's reason
 * @param failed makes the answer of a fault
 */
const ask = <Kind extends keyof Answers>(
  task: MeasureTask & { readonly kind: Kind },
  failed: (fault: WorkerFault) => Answers[Kind]["gets"],
  signal: AbortSignal | null,
  { progress, makeWorker = ownWorker }: MeasureOptions,
): Promise<Answers[Kind]["gets"]> =>
  new Promise((resolve, reject) => {
    if (signal?.aborted) {
      reject(signal.reason);
      return;
    }
    const end = runInWorker<MeasureReply<Answers[Kind]["gets"]>>({
      make: makeWorker,
      message: task,
      heard: (reply) => {
        if (reply.kind === "progress") progress?.(reply.share);
        else resolve(reply.answer);
        return reply.kind === "answer";
      },
      failed: (fault) => resolve(failed(fault)),
    });
    signal?.addEventListener("abort", () => {
      end();
      reject(signal.reason);
    });
  });

/**
 * Measures a job off the page's thread.
 * @param signal cancels: the worker is ended at once, and the promise rejects with the signal's reason
 * @returns what was measured, or why it could not be; rejects only when cancelled
 */
export const measure = (signal: AbortSignal, job: Job, options: MeasureOptions = {}): Promise<JobOutcome> =>
  ask(
    { kind: "measure", job },
    (fault) => ({ kind: "refused", why: [{ code: "stopped", trouble: fault }] }),
    signal,
    options,
  );

/** Reads a short piece of every track of a job off the page's thread; null where it cannot be read. Never rejects. */
export const askExcerpt = (
  job: Job,
  from: Seconds,
  seconds: Seconds,
  options: MeasureOptions = {},
): Promise<Excerpt | null> => ask({ kind: "excerpt", job, from, seconds }, () => null, null, options);

/** Looks at a compressed file off the page's thread. Never rejects. */
export const askLook = (file: Blob, options: MeasureOptions = {}): Promise<Look> => {
  const late: Look = { kind: "late", seconds: LOOK_MS / 1000 };
  return ask(
    { kind: "look", file },
    (fault) => ({ kind: "failed", trouble: fault }),
    AbortSignal.timeout(LOOK_MS),
    options,
  ).catch(() => late);
};
