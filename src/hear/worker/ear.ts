import type { HitFinder } from "../../core/hear/hit";
import { hitFinder } from "../../core/hear/hit-finder";
import { pairMeter } from "../../core/hear/pair-meter";
import { type SteadyMeter, steadyMeter } from "../../core/hear/steady-meter";
import type { Hertz, Seconds } from "../../core/model/units";
import { BLOCK_FRAMES, type PairBlock } from "../block";
import type { EarNews, EarOrder } from "../protocol";

/** How often the meters are told. A design choice: what an eye follows. */
const TELL_EVERY: Seconds = 0.1;

/** Measures blocks as they come. */
export interface Ear {
  readonly take: (block: PairBlock) => void;
  readonly obey: (order: EarOrder) => void;
}

/** What measures the blocks of an input of this sample rate, and tells of it. */
export const newEar = (rate: Hertz, tell: (news: EarNews) => void): Ear => {
  const meter = pairMeter(rate);
  let finder: HitFinder | null = null;
  let steady: { readonly meter: SteadyMeter; readonly seconds: Seconds } | null = null;
  /** Frames since the meters were told. */
  let untold = 0;
  return {
    take: ({ samples, channels, isAfterGap }) => {
      const left = samples.subarray(0, BLOCK_FRAMES);
      const right = samples.subarray(BLOCK_FRAMES);
      meter.take(left, right);
      untold += BLOCK_FRAMES;
      if (untold >= TELL_EVERY * rate) {
        untold = 0;
        tell({ kind: "reading", reading: meter.read(), channels });
      }
      steady?.meter.take(left, right);
      const measured = steady?.meter.read();
      if (measured && measured.seconds >= (steady?.seconds ?? 0)) {
        steady = null;
        tell({ kind: "steady", steady: measured });
      }
      // What a gap lies in is no hit.
      if (finder && isAfterGap) finder = hitFinder(rate);
      for (const found of finder?.take(left, right) ?? []) tell({ kind: "hit", found });
    },
    obey: (order) => {
      if (order.kind === "reset") meter.reset();
      else if (order.kind === "steady")
        steady = { meter: steadyMeter(rate, order.noise), seconds: order.seconds };
      else if (!order.wanted) finder = null;
      else finder ??= hitFinder(rate);
    },
  };
};
