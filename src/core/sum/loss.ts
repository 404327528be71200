import { levelOf } from "../decibels";
import type { Part } from "../mix";
import type { Db, Legs } from "../units";
import type { Strength } from "./arrivals";

/** Peak of the loudest single source after its send, before any pan law, dBFS; −∞ where no peak is known. */
export const loudestAlone = (parts: readonly Part[], strengths: readonly Strength[]): Db =>
  parts.reduce(
    (most, { send }, i) => Math.max(most, levelOf(strengths[i]?.peak ?? 0) + (send.level ?? 0)),
    Number.NEGATIVE_INFINITY,
  );

/**
 * Headroom loss of each leg: what summing and the pan law cost against the loudest single source, before the trims.
 * Negative where the law lowers everything by more than summing adds.
 * @returns null for a leg in which nothing sounds
 */
export const lossOf = (likely: Legs<Db>, trims: Legs<Db>, alone: Db): Legs<Db | null> => {
  const leg = (at: 0 | 1): Db | null =>
    likely[at] === Number.NEGATIVE_INFINITY ? null : likely[at] - trims[at] - alone;
  return [leg(0), leg(1)];
};
