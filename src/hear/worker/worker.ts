import type { PairBlock } from "../block";
import type { EarBegin, EarOrder } from "../protocol";
import { newEar } from "./ear";

declare const self: DedicatedWorkerGlobalScope;

const begin = ({ rate, line }: EarBegin): void => {
  const ear = newEar(rate, (news) => self.postMessage(news));
  self.onmessage = ({ data }: MessageEvent<EarOrder>) => ear.obey(data);
  line.onmessage = ({ data }: MessageEvent<PairBlock>) => {
    ear.take(data);
    line.postMessage(data.samples, [data.samples.buffer]);
  };
};

/** One input, then the page ends this worker. */
self.onmessage = ({ data }: MessageEvent<EarBegin>) => begin(data);
