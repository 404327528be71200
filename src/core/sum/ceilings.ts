import type { Setup, Sum } from "../setup";
import type { Db, Legs, Side } from "../units";

/**
 * Where the chain can clip, in its order:
 * "sum": the sum itself at 0 dBFS, before its trims, which act after it and so cannot save it;
 * "output": the output at 0 dBFS after the trims;
 * "input": the receiving input's maximum, after the pad.
 * A console that sums with spare bits survives the first, but its meters, inserts and recorders there do not.
 */
export type CeilingPlace = "sum" | "output" | "input";

/** A ceiling as it stands at each leg after the trims, dBFS of a peak. */
export interface Limit {
  readonly place: CeilingPlace;
  readonly at: Legs<Db>;
}

/** "unknown": sources sound, but nobody knows a peak of them. */
export type CeilingState = "over" | "inside margin" | "fine" | "silent" | "unknown";

/** One ceiling and how far below it the likely peak stays, on the leg that comes closest. */
export interface Ceiling {
  readonly place: CeilingPlace;
  /** dBFS after the trims, on that leg. */
  readonly ceiling: Db;
  /** Ceiling minus likely peak, dB; +∞ with nothing sounding. */
  readonly headroom: Db;
  readonly leg: Side;
  readonly state: CeilingState;
}

/** Differences below this are rounding, dB. */
export const SLACK: Db = 1e-6;

/** Level change by the trims of each leg, dB; a mono sum has its left leg only. */
export const trimsOf = (sum: Sum): Legs<Db> => {
  const left = sum.trim + sum.legTrim[0];
  return [left, sum.stereo ? sum.trim + sum.legTrim[1] : left];
};

/**
 * Every ceiling of the chain, in its order. The console's output level is that of a full-scale sine, and an input's
 * maximum is given as the level of a sine too, so both compare with peaks without an rms convention.
 */
export const limitsOf = (setup: Pick<Setup, "console" | "monitor">, sum: Sum): Limit[] => {
  const input = setup.monitor.inputMaxDbu - setup.console.outputDbu + sum.padDb;
  return [
    { place: "sum", at: trimsOf(sum) },
    { place: "output", at: [0, 0] },
    { place: "input", at: [input, input] },
  ];
};

const stateOf = (headroom: Db, margin: Db): CeilingState => {
  if (headroom === Number.POSITIVE_INFINITY) return "silent";
  if (headroom < -SLACK) return "over";
  return headroom < margin - SLACK ? "inside margin" : "fine";
};

/**
 * Headroom at every ceiling.
 * @param likely likely peak of each leg after the trims, dBFS
 * @param peaksKnown false where sources sound without a known peak among them
 */
export const ceilingsOf = (
  limits: readonly Limit[],
  likely: Legs<Db>,
  margin: Db,
  peaksKnown = true,
): Ceiling[] =>
  limits.map(({ place, at }) => {
    const rooms: Legs<Db> = [at[0] - likely[0], at[1] - likely[1]];
    const leg = rooms[1] < rooms[0] - SLACK ? 1 : 0;
    return {
      place,
      ceiling: at[leg],
      headroom: rooms[leg],
      leg: leg === 1 ? "right" : "left",
      state: peaksKnown ? stateOf(rooms[leg], margin) : "unknown",
    };
  });

/** The ceiling with the least headroom; of equals the first in the chain. */
export const lowestOf = (ceilings: readonly Ceiling[]): Ceiling =>
  ceilings.reduce((low, c) => (c.headroom < low.headroom - SLACK ? c : low));
