import { inputTrims } from "../mix/pair-order";
import type { Bus, Setup } from "../model/setup";
import type { Db, Side, Sides } from "../model/units";

/**
 * Where the chain can clip, in its order:
 * "bus": the bus itself at 0 dBFS, before its fader and trims, which act after it and so cannot save it: only on desks
 * whose buses can overload (analog, fixed-point), common practice, no source;
 * "output": the output at 0 dBFS after fader and trims;
 * "input": the monitor input's maximum, after the pad; a digital link has no ceiling of its own but a trim before it.
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

/** Level change by fader and trims of each side, dB; a mono bus has neither trim nor polarity of a side. */
export const trimsOf = (bus: Bus): Sides<Db> => {
  // Pulled down, nothing comes out that a ceiling could cut.
  const whole = (bus.fader ?? 0) + bus.trim;
  return bus.stereo ? [whole + bus.sideTrim[0], whole + bus.sideTrim[1]] : [whole, whole];
};

/** Ceiling of a monitor input before any pad or trim, as a peak at the desk’s output, dBFS; a digital link ends at 0. */
export const inputCeiling = ({ desk, monitor }: Pick<Setup, "desk" | "monitor">): Db =>
  monitor.link === "digital" ? 0 : monitor.maxInputDbu - desk.outputDbu;

/**
 * Every ceiling of the chain, in its order. The console's output level is that of a full-scale sine, and an input's
 * maximum is given as the level of a sine too, so both compare with peaks without an rms convention.
 */
export const ceilingLevelsOf = (
  { desk, monitor }: Pick<Setup, "desk" | "monitor">,
  bus: Bus,
): CeilingLevel[] => {
  const [left, right] = monitor.trimBeforeInput ? inputTrims(monitor, bus) : [0, 0];
  const input = inputCeiling({ desk, monitor }) + (monitor.link === "analog" ? bus.padDb : 0);
  return [
    ...(desk.busOverloads ? [{ place: "bus", at: trimsOf(bus) } as const] : []),
    { place: "output", at: [0, 0] },
    { place: "input", at: [input - left, input - right] },
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
