import { levelOf } from "../decibels";
import { byEveryLaw, type LawCase } from "../laws";
import { partsOf } from "../mix";
import type { Setup, Sum } from "../setup";
import type { Db, Legs, Outlet } from "../units";
import { arrivalsAt, type Strength } from "./arrivals";
import { type CeilingPlace, ceilingsOf, type Limit, lowestOf, trimsOf } from "./ceilings";
import { lossOf } from "./loss";
import { totalsOf } from "./totals";

/** What the sum would be if the console's law were this one. */
export interface LawFigures extends LawCase {
  /** Likely peak of each leg, dBFS. */
  readonly likely: Legs<Db>;
  /** Likely peak of the plain sum left + right, dBFS. */
  readonly likelyMono: Db;
  /** Headroom loss of the worse leg, dB; null where nothing sounds. */
  readonly loss: Db | null;
  /** Headroom at the lowest ceiling, dB. */
  readonly headroom: Db;
  readonly lowest: CeilingPlace;
}

const worse = ([left, right]: Legs<Db | null>): Db | null =>
  left === null ? right : right === null ? left : Math.max(left, right);

/**
 * The sum by every law with both references, in the order of `byEveryLaw`.
 * @param strengths in the order of the sum's parts, which no law changes
 * @param outlets left, right and mono of this sum
 * @param alone peak of the loudest single source, dBFS
 */
export const lawFigures = (
  setup: Setup,
  sum: Sum,
  strengths: readonly Strength[],
  outlets: readonly [Outlet, Outlet, Outlet],
  limits: readonly Limit[],
  alone: Db,
): LawFigures[] => {
  const trims = trimsOf(sum);
  return byEveryLaw(setup.console, (console) => {
    const parts = partsOf({ ...setup, console }, sum);
    const peakAt = (outlet: Outlet): Db => levelOf(totalsOf(arrivalsAt(parts, strengths, outlet)).likely);
    const likely: Legs<Db> = [peakAt(outlets[0]), peakAt(outlets[1])];
    const lowest = lowestOf(ceilingsOf(limits, likely, setup.wishes.margin));
    return {
      likely,
      likelyMono: peakAt(outlets[2]),
      loss: worse(lossOf(likely, trims, alone)),
      headroom: lowest.headroom,
      lowest: lowest.place,
    };
  });
};
