import { gainOf } from "../decibels";
import { LOWEST_SEND, LOWEST_TRIM } from "../lowest";
import type { Id, Send, Sum } from "../setup";
import type { Db, Legs } from "../units";
import type { Arrival } from "./arrivals";
import { type Ceiling, type CeilingPlace, type Limit, SLACK } from "./ceilings";
import { fewestPulls, MOST_PULL } from "./fewest";

/** One send to pull. */
export interface Pull {
  readonly source: Id;
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
   * Trim of the whole sum that gives the output and the receiving input their margin; null where both have it.
   * `enough` is false where the sum itself lacks margin: it lies before its trim, only sends help there.
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

const lacking = (ceilings: readonly Ceiling[], margin: Db, at: (place: CeilingPlace) => boolean): Db =>
  Math.max(0, ...ceilings.filter((c) => at(c.place)).map((c) => margin - c.headroom));

const trimFor = (sum: Sum, step: Db, short: Db, sumShort: Db): Remedy["trim"] => {
  if (short <= SLACK) return null;
  const to = Math.floor((sum.trim - short + ROUNDING) / step) * step;
  return { to, by: sum.trim - to, enough: sumShort <= SLACK, inRange: to >= LOWEST_TRIM };
};

const allBy = (sum: Sum, by: Db): Pulls => ({
  by,
  sends: sum.sends.flatMap(({ source, level }) =>
    level === null ? [] : [{ source, to: level - by < LOWEST_SEND ? null : level - by }],
  ),
});

const fewestFor = (
  arrivals: Legs<readonly Arrival[]>,
  limits: readonly Limit[],
  margin: Db,
  step: Db,
): Pulls | null => {
  const sends = arrivals[0].map((a) => a.part.send);
  const leg = (at: 0 | 1) => ({
    peaks: arrivals[at].map((a) => a.peak ?? 0),
    limit: gainOf(Math.min(...limits.map((l) => l.at[at])) - margin + ROUNDING),
  });
  // So far down that the largest pull would leave its range, a send takes no room worth having.
  const pullable = (i: number): boolean => (sends[i]?.level ?? 0) - MOST_PULL >= LOWEST_SEND;
  const found = fewestPulls([leg(0), leg(1)], step, pullable);
  if (!found) return null;
  const by = found.steps * step;
  const pull = ({ source, level }: Send): Pull => ({ source, to: (level ?? 0) - by });
  return { by, sends: found.sends.map((i) => pull(sends[i] as Send)) };
};

/**
 * What to do about missing headroom.
 * @param arrivals what arrives at each leg
 * @returns null where every ceiling has its margin
 */
export const remedyOf = (
  sum: Sum,
  arrivals: Legs<readonly Arrival[]>,
  limits: readonly Limit[],
  ceilings: readonly Ceiling[],
  margin: Db,
  step: Db,
): Remedy | null => {
  const short = lacking(ceilings, margin, () => true);
  if (short <= SLACK) return null;
  const afterTrim = lacking(ceilings, margin, (place) => place !== "sum");
  const inSum = lacking(ceilings, margin, (place) => place === "sum");
  return {
    short,
    trim: trimFor(sum, step, afterTrim, inSum),
    all: allBy(sum, Math.ceil((short - ROUNDING) / step) * step),
    fewest: fewestFor(arrivals, limits, margin, step),
  };
};
