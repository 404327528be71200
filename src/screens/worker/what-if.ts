import type { Id, Setup } from "../../core/model/setup";
import { type Tried, whatIfs } from "../../core/recommend/what-if";

declare const self: DedicatedWorkerGlobalScope;

const answer = (tried: Tried): void => self.postMessage(tried);

/** Tries every fact for one bus and tells each as it is tried; the page ends this worker, in the middle to stop it. */
self.onmessage = ({
  data: { setup, bus },
}: MessageEvent<{ readonly setup: Setup; readonly bus: Id }>): void => {
  const its = setup.buses.find((s) => s.id === bus);
  if (its) for (const tried of whatIfs(setup, its)) answer(tried);
};
