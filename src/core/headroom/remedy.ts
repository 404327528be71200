import { gainOf } from "../level/decibels";
import { LOWEST_SEND, LOWEST_TRIM } from "../model/limits";
import type { Bus, Id, Send } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { type Ceiling, type CeilingLevel, SLACK, type Stage } from "./ceilings";
import type { Contribution } from "./contributions";
import { fewestPulls, MOST_PULL } from "./fewest-sends";

/** One send to pull. */
export interface Pull {
  readonly channel: Id;
  /** Level of the send then, dB; null is off, where the console goes no lower. */
  readonly to: Db | null;
}

/** Sends to pull, all of them by as much. */
export interface Pulls {
  /** How far down, dB, positive. */
  readonly by: Db;
  readonly sends: readonly Pull[];
}

/** What restores the wanted margin, in the console's steps, never a step short. */
export interface Remedy {
  /** How far the lowest ceiling is short of the margin, dB. */
  readonly short: Db;
  /**
   * Trim of the whole bus that gives the output and the receiving input their margin; null where both have it.
   * `enough` is false where the bus itself lacks margin: it lies before its trim, only sends help there.
   * `inRange` is false where no trim goes that low.
   */
  readonly trim: {
    readonly to: Db;
    readonly by: Db;
    readonly enough: boolean;
    readonly inRange: boolean;
  } | null;
  /** Every send that is on: enough at every ceiling. */
  readonly all: Pulls;
  /** The fewest sends to pull instead; null where a few are not enough. None of them goes below the range of a send. */
  readonly fewest: Pulls | null;
}

/** So much of the margin may be missing by rounding before another whole step is taken, dB. */
const ROUNDING = SLACK / 2;

const lacking = (ceilings: readonly Ceiling[], margin: Db, at: (place: Stage) => boolean): Db =>
  Math.max(0, ...ceilings.filter((c) => at(c.place)).map((c) => margin - c.headroom));

const trimFor = (bus: Bus, step: Db, short: Db, sumShort: Db): Remedy["trim"] => {
  if (short <= SLACK) return null;
  const to = Math.floor((bus.trim - short + ROUNDING) / step) * step;
  return { to, by: bus.trim - to, enough: sumShort <= SLACK, inRange: to >= LOWEST_TRIM };
};

const allBy = (bus: Bus, by: Db): Pulls => ({
  by,
  sends: bus.sends.flatMap(({ channel, level }) =>
    level === null ? [] : [{ channel, to: level - by < LOWEST_SEND ? null : level - by }],
  ),
});

const fewestFor = (
  arrivals: Sides<readonly Contribution[]>,
  limits: readonly CeilingLevel[],
  margin: Db,
  step: Db,
): Pulls | null => {
  const sends = arrivals[0].map((a) => a.part.send);
  const side = (at: 0 | 1) => ({
    peaks: arrivals[at].map((a) => a.peak ?? 0),
    limit: gainOf(Math.min(...limits.map((l) => l.at[at])) - margin + ROUNDING),
  });
  // So far down that the largest pull would leave its range, a send takes no room worth having.
  const pullable = (i: number): boolean => (sends[i]?.level ?? 0) - MOST_PULL >= LOWEST_SEND;
  const found = fewestPulls([side(0), side(1)], step, pullable);
  if (!found) return null;
  const by = found.steps * step;
  const pull = ({ channel, level }: Send): Pull => ({ channel, to: (level ?? 0) - by });
  return { by, sends: found.sends.map((i) => pull(sends[i] as Send)) };
};

/**
 * What to do about missing headroom.
 * @param arrivals what arrives at each side
 * @returns null where every ceiling has its margin
 */
export const remedyOf = (
  bus: Bus,
  arrivals: Sides<readonly Contribution[]>,
  limits: readonly CeilingLevel[],
  ceilings: readonly Ceiling[],
  margin: Db,
  step: Db,
): Remedy | null => {
  const short = lacking(ceilings, margin, () => true);
  if (short <= SLACK) return null;
  const afterTrim = lacking(ceilings, margin, (place) => place !== "bus");
  const inSum = lacking(ceilings, margin, (place) => place === "bus");
  return {
    short,
    trim: trimFor(bus, step, afterTrim, inSum),
    all: allBy(bus, Math.ceil((short - ROUNDING) / step) * step),
    fewest: fewestFor(arrivals, limits, margin, step),
  };
};
