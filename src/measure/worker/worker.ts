import { runJob } from "../engine";
import { readExcerpt } from "../excerpt";
import type { MeasureReply, MeasureTask } from "../protocol";

declare const self: DedicatedWorkerGlobalScope;

const say = (reply: MeasureReply<unknown>, owned: Transferable[] = []): void =>
  self.postMessage(reply, owned);

const answer = async (task: MeasureTask): Promise<void> => {
  switch (task.kind) {
    case "look": {
      const { lookAt } = await import("../compressed");
      say({ kind: "answer", answer: await lookAt(task.file) });
      return;
    }
    case "excerpt": {
      const excerpt = await readExcerpt(task.job, task.from, task.seconds);
      const owned = excerpt?.tracks.map((track) => track.buffer);
      say({ kind: "answer", answer: excerpt }, owned);
      return;
    }
    case "measure":
      say({ kind: "answer", answer: await runJob(task.job, (share) => say({ kind: "progress", share })) });
  }
};

/** One task, then the page ends this worker; it ends it in the middle to cancel. */
self.onmessage = ({ data }: MessageEvent<MeasureTask>) => {
  // The page hears of a part that cannot be loaded; of a promise that rejects it would not.
  answer(data).catch(reportError);
};
