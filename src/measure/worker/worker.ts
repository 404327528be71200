import { runJob } from "../engine";
import type { Job, Reply } from "../protocol";

declare const self: DedicatedWorkerGlobalScope;

const say = (reply: Reply): void => self.postMessage(reply);

/** One job, then the page ends this worker; it ends it in the middle to cancel. */
self.onmessage = async (message: MessageEvent<Job>): Promise<void> => {
  say(await runJob(message.data, (share) => say({ kind: "progress", share })));
};
