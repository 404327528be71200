import { type HitCheck, hearingOf } from "../../core/hear/hearing";
import { stateOf } from "../../core/hear/state-of";
import type { JudgeAsk, JudgeBegin, Judged } from "../protocol";

declare const self: DedicatedWorkerGlobalScope;

let hearing: HitCheck | null = null;

const judged = (of: HitCheck, { heard }: JudgeAsk): Judged =>
  of.obstacle === null ? stateOf(of, heard) : of.obstacle;

/** One check by input: it is begun once, then asked after every hit; the page ends this worker. */
self.onmessage = ({ data }: MessageEvent<JudgeBegin | JudgeAsk>) => {
  if (data.kind === "begin") hearing = hearingOf(data.setup, data.listener, data.point);
  else if (hearing) self.postMessage(judged(hearing, data));
};
