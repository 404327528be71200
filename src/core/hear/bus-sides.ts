import { isSwapped } from "../mix/pair-order";
import type { Bus, HearingPoint, Listener, Setup } from "../model/setup";
import type { Sides } from "../model/units";

/**
 * What L and R of an input are of the sides of a stereo bus, or what those are of L and R: behind a listener's mixer they
 * may have changed places.
 * @returns null where the mixer makes one of both
 */
export const exchangedLike = <T>(
  setup: Pick<Setup, "monitor">,
  bus: Bus,
  { flipped, mono }: Pick<Listener, "flipped" | "mono">,
  from: HearingPoint,
  [left, right]: Sides<T>,
): Sides<T> | null => {
  if (from === "bus") return [left, right];
  if (mono) return null;
  return isSwapped(setup, bus) === flipped ? [left, right] : [right, left];
};
