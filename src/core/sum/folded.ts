import { energyLegs } from "../channels";
import { levelOf } from "../decibels";
import type { Heard } from "../ears";
import type { Part } from "../mix";
import { heardPlace, levelDifference } from "../position";
import type { Id, Sum } from "../setup";
import type { Db, Legs } from "../units";

/** How one source moves when both legs are folded to mono. */
export interface Fold {
  readonly source: Id;
  /**
   * Level in the fold against the source at its send without pan or trim of the sum, dB.
   * A centre source is 3.01 dB above a fully panned one by the constant-power laws and level with it by the linear one.
   */
  readonly rise: Db;
}

/** One source of the far side, heard with one ear only. */
export interface FarSource {
  readonly source: Id;
  /** Level in this ear against the other, dB, negative; −∞ where it is gone. */
  readonly drop: Db;
}

/** What the plain sum left + right does to each source of a pair; empty for a mono sum, which has no legs to fold. */
export const foldsOf = (sum: Sum, parts: readonly Part[]): Fold[] => {
  if (!sum.stereo) return [];
  return parts.map(({ source, send, channels }) => {
    const folded = Math.sqrt(channels.reduce((power, [l, r]) => power + (l + r) ** 2, 0));
    // A silent send has nothing to compare with.
    const rise = folded === 0 ? Number.NEGATIVE_INFINITY : levelOf(folded) - ((send.level ?? 0) + sum.trim);
    return { source: source.id, rise };
  });
};

/**
 * What the sources of the far side drop to in each single ear, most lost first; none for a mono sum.
 * @param heard what the sum brings to the ears, by its slots
 */
export const oneEarOf = (sum: Sum, heard: readonly Heard[]): Legs<readonly FarSource[]> => {
  if (!sum.stereo) return [[], []];
  const ears = heard.map(({ source, channels }) => ({ source, legs: energyLegs(channels) }));
  const far = (side: "left" | "right"): FarSource[] =>
    ears
      .filter((h) => heardPlace(h.legs) === side)
      .map((h) => ({ source: h.source.id, drop: -Math.abs(levelDifference(h.legs)) }))
      .sort((a, b) => (a.drop === b.drop ? 0 : a.drop - b.drop));
  return [far("right"), far("left")];
};
