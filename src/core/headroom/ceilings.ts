import type { Bus, Setup } from "../model/setup";
import type { Db, Side, Sides } from "../model/units";

/**
 * Where the chain can clip, in its order:
 * "sum": the bus itself at 0 dBFS, before its trims, which act after it and so cannot save it;
 * "output": the output at 0 dBFS after the trims;
 * "input": the receiving input's maximum, after the pad.
 * A console that buses with spare bits survives the first, but its meters, inserts and recorders there do not.
 */
export type Stage = "bus" | "output" | "input";

/** A ceiling as it stands at each side after the trims, dBFS of a peak. */
export interface CeilingLevel {
  readonly place: Stage;
  readonly at: Sides<Db>;
}

/** "unknown": channels sound, but nobody knows a peak of them. */
export type CeilingState = "over" | "under target" | "fine" | "silent" | "unknown";

/** One ceiling and how far below it the likely peak stays, on the side that comes closest. */
export interface Ceiling {
  readonly place: Stage;
  /** dBFS after the trims, on that side. */
  readonly ceiling: Db;
  /** Ceiling minus likely peak, dB; +∞ with nothing sounding. */
  readonly headroom: Db;
  readonly side: Side;
  readonly state: CeilingState;
}

/** Differences below this are rounding, dB. */
export const SLACK: Db = 1e-6;

/** Level change by the trims of each side, dB; a mono bus has its left side only. */
export const trimsOf = (bus: Bus): Sides<Db> => {
  const left = bus.trim + bus.sideTrim[0];
  return [left, bus.stereo ? bus.trim + bus.sideTrim[1] : left];
};

/**
 * Every ceiling of the chain, in its order. The console's output level is that of a full-scale sine, and an input's
 * maximum is given as the level of a sine too, so both compare with peaks without an rms convention.
 */
export const ceilingLevelsOf = (setup: Pick<Setup, "desk" | "monitor">, bus: Bus): CeilingLevel[] => {
  const input = setup.monitor.maxInputDbu - setup.desk.outputDbu + bus.padDb;
  return [
    { place: "bus", at: trimsOf(bus) },
    { place: "output", at: [0, 0] },
    { place: "input", at: [input, input] },
  ];
};

const stateOf = (headroom: Db, margin: Db): CeilingState => {
  if (headroom === Number.POSITIVE_INFINITY) return "silent";
  if (headroom < -SLACK) return "over";
  return headroom < margin - SLACK ? "under target" : "fine";
};

/**
 * Headroom at every ceiling.
 * @param likely likely peak of each side after the trims, dBFS
 * @param peaksKnown false where channels sound without a known peak among them
 */
export const ceilingsOf = (
  limits: readonly CeilingLevel[],
  likely: Sides<Db>,
  margin: Db,
  peaksKnown = true,
): Ceiling[] =>
  limits.map(({ place, at }) => {
    const rooms: Sides<Db> = [at[0] - likely[0], at[1] - likely[1]];
    const side = rooms[1] < rooms[0] - SLACK ? 1 : 0;
    return {
      place,
      ceiling: at[side],
      headroom: rooms[side],
      side: side === 1 ? "right" : "left",
      state: peaksKnown ? stateOf(rooms[side], margin) : "unknown",
    };
  });

/** The ceiling with the least headroom; of equals the first in the chain. */
export const limitingStageOf = (ceilings: readonly Ceiling[]): Ceiling =>
  ceilings.reduce((low, c) => (c.headroom < low.headroom - SLACK ? c : low));
