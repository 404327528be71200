/** Why a worker came to no end of its own. */
export interface WorkerFault {
  /** Before it began, or on its way. */
  readonly when: "start" | "run";
  /** What the browser says, or a code where it says nothing. */
  readonly why: "not loaded" | "no answer" | { readonly reason: string };
}

/** One task for a worker of its own. */
export interface WorkerTask<Reply> {
  /** Starts the worker; a page may have its own rules for the addresses of scripts. */
  readonly make: () => Worker;
  /** What the worker is told. */
  readonly message: unknown;
  /** Hears every answer, in order. @returns whether it was the last */
  readonly heard: (reply: Reply) => boolean;
  /** Told once where the last answer does not come. */
  readonly failed: (fault: WorkerFault) => void;
}

/**
 * Runs a task off the page's thread, in a worker that is ended with it.
 * @returns ends it before its time; nothing is heard of it any more
 */
export const runInWorker = <Reply>({ make, message, heard, failed }: WorkerTask<Reply>): (() => void) => {
  let worker: Worker;
  try {
    worker = make();
  } catch (error) {
    failed({ when: "start", why: { reason: String(error) } });
    return () => undefined;
  }
  const end = (): void => {
    worker.onmessage = null;
    worker.terminate();
  };
  const fail = (why: WorkerFault["why"]): void => {
    end();
    failed({ when: "run", why });
  };
  worker.onmessage = ({ data }: MessageEvent<Reply>) => {
    if (heard(data)) end();
  };
  worker.onerror = (event) => fail(event.message ? { reason: event.message } : "not loaded");
  worker.onmessageerror = () => fail("no answer");
  worker.postMessage(message);
  return end;
};
