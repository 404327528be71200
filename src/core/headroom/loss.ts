import { levelOf } from "../level/decibels";
import type { MixedChannel } from "../mix/bus";
import type { Db, Sides } from "../model/units";
import type { ChannelLevels } from "./contributions";

/** Peak of the loudest single channel after its send, before any pan law, dBFS; −∞ where no peak is known. */
export const loudestAlone = (parts: readonly MixedChannel[], strengths: readonly ChannelLevels[]): Db =>
  parts.reduce(
    (most, { sent }, i) => Math.max(most, levelOf((strengths[i]?.peak ?? 0) * sent)),
    Number.NEGATIVE_INFINITY,
  );

/**
 * Headroom loss of each side: what summing and the pan law cost against the loudest single channel, before the trims.
 * Negative where the law lowers everything by more than summing adds.
 * @returns null for a side in which nothing sounds
 */
export const headroomLossOf = (likely: Sides<Db>, trims: Sides<Db>, alone: Db): Sides<Db | null> => {
  const side = (at: 0 | 1): Db | null =>
    likely[at] === Number.NEGATIVE_INFINITY ? null : likely[at] - trims[at] - alone;
  return [side(0), side(1)];
};
