import { gainOf } from "../decibels";
import type { Id, Sum } from "../setup";
import type { Db, Legs } from "../units";
import type { Arrival } from "./arrivals";
import { type Ceiling, type CeilingPlace, type Limit, SLACK } from "./ceilings";
import { fewestPulls } from "./fewest";

/** One send to pull. */
export interface Pull {
  readonly source: Id;
  /** How far down, dB, positive. */
  readonly by: Db;
  /** Level of the send then, dB. */
  readonly to: Db;
}

/** What restores the wanted margin, in the console's steps, never a step short. */
export interface Remedy {
  /** How far the lowest ceiling is short of the margin, dB. */
  readonly short: Db;
  /**
   * Trim of the whole sum that gives the output and the receiving input their margin; null where both have it.
   * `enough` is false where the sum itself lacks margin: it lies before its trim, only sends help there.
   */
  readonly trim: { readonly to: Db; readonly by: Db; readonly enough: boolean } | null;
  /** All sends down by this, dB, positive: enough at every ceiling. */
  readonly allSends: Db;
  /** The fewest sends to pull instead; null where a few are not enough. */
  readonly fewest: readonly Pull[] | null;
}

/** How far a step count may be off by rounding before another whole step is taken. */
const ROUNDING = 1e-9;

const lacking = (ceilings: readonly Ceiling[], margin: Db, at: (place: CeilingPlace) => boolean): Db =>
  Math.max(0, ...ceilings.filter((c) => at(c.place)).map((c) => margin - c.headroom));

const trimFor = (sum: Sum, step: Db, short: Db, sumShort: Db): Remedy["trim"] => {
  if (short <= SLACK) return null;
  const to = Math.floor((sum.trim - short) / step + ROUNDING) * step;
  return { to, by: sum.trim - to, enough: sumShort <= SLACK };
};

const fewestFor = (
  arrivals: Legs<readonly Arrival[]>,
  limits: readonly Limit[],
  margin: Db,
  step: Db,
): Pull[] | null => {
  const leg = (at: 0 | 1) => ({
    peaks: arrivals[at].map((a) => a.peak ?? 0),
    limit: gainOf(Math.min(...limits.map((l) => l.at[at])) - margin + SLACK / 2),
  });
  const pulls = fewestPulls([leg(0), leg(1)], step);
  if (!pulls) return null;
  const by = pulls.steps * step;
  return pulls.sends.map((i) => {
    const { send } = (arrivals[0][i] as Arrival).part;
    return { source: send.source, by, to: (send.level ?? 0) - by };
  });
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
    allSends: Math.ceil(short / step - ROUNDING) * step,
    fewest: fewestFor(arrivals, limits, margin, step),
  };
};
