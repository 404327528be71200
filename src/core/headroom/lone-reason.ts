import { gainOf } from "../level/decibels";
import type { Db, Gain } from "../model/units";
import { likelyPeak } from "./totals";

/** One side: the peak that every send brings to it, and what their likely peak may be. */
export interface SideLimit {
  readonly peaks: readonly Gain[];
  readonly limit: Gain;
}

/** Which send to lower, as an index, and by how many steps. */
export interface LoneReason {
  readonly send: number;
  readonly steps: number;
}

/** A side as one send sees it: its own peak, and the others without it. */
interface Beside {
  readonly own: Gain;
  readonly limit: Gain;
  /** The loudest of the others. */
  readonly top: Gain;
  /** Sum of squares of the others. */
  readonly squares: number;
}

const beside = ({ peaks, limit }: SideLimit, send: number): Beside => {
  let top = 0;
  let squares = 0;
  peaks.forEach((peak, i) => {
    if (i === send) return;
    top = Math.max(top, peak);
    squares += peak * peak;
  });
  return { own: peaks[send] as number, limit, top, squares };
};

/** Whether the side fits with the send at this part of its peak. */
const fits = ({ own, limit, top, squares }: Beside, factor: Gain): boolean => {
  const peak = factor * own;
  const loudest = Math.max(peak, top);
  return likelyPeak(loudest, Math.max(0, squares + peak * peak - loudest * loudest)) <= limit;
};

/**
 * The one source that alone is the reason why a bus lacks headroom. It is where all of this holds:
 * - by itself, with every other send off, it is over the limit on some side: it would be with no sum at all;
 * - lowered alone by some steps every side fits, and so without it the others do;
 * - lowered by no more than that it is still the loudest on each side where it is over by
 *   itself: only what stands out of the mix is taken, and nobody loses it.
 *
 * There is no second such source: more sends never lower a likely peak, so no side fits while the first is in it.
 * That it must stay the loudest is a design choice: lowered further, the balance would be another one.
 * @param step the desk's level step, dB
 * @param most how many steps each send can go down
 * @returns null where the sum is the reason
 */
export const loneReason = (
  sides: readonly SideLimit[],
  step: Db,
  most: (send: number) => number,
): LoneReason | null => {
  const count = sides[0]?.peaks.length ?? 0;
  const isOver = (send: number): boolean => sides.some(({ peaks, limit }) => (peaks[send] as number) > limit);
  const send = Array.from({ length: count }, (_, i) => i).find(isOver);
  if (send === undefined) return null;
  const seen = sides.map((side) => beside(side, send));
  const standsOut = (factor: Gain): boolean =>
    seen.every(({ own, limit, top }) => own <= limit || factor * own >= top);
  for (let steps = 1; steps <= most(send); steps += 1) {
    const factor = gainOf(-steps * step);
    if (!standsOut(factor)) return null;
    if (seen.every((side) => fits(side, factor))) return { send, steps };
  }
  return null;
};
