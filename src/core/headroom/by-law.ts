import { levelOf } from "../level/decibels";
import { mixedChannelsOf } from "../mix/bus";
import type { Bus, Setup } from "../model/setup";
import type { Db, Outlet, Sides } from "../model/units";
import { byEveryLaw, type LawCase } from "../pan/laws";
import { type CeilingLevel, ceilingsOf, limitingStageOf, type Stage, trimsOf } from "./ceilings";
import { type ChannelLevels, contributionsAt } from "./contributions";
import { headroomLossOf } from "./loss";
import { totalsOf } from "./totals";

/** What the bus would be if the console's law were this one. */
export interface LawFigures extends LawCase {
  /** Likely peak of each side, dBFS. */
  readonly likely: Sides<Db>;
  /** Likely peak of the plain sum left + right, dBFS. */
  readonly likelyMono: Db;
  /** Headroom loss of the worse side, dB; null where nothing sounds. */
  readonly loss: Db | null;
  /** Headroom at the lowest ceiling, dB. */
  readonly headroom: Db;
  readonly lowest: Stage;
}

const worse = ([left, right]: Sides<Db | null>): Db | null =>
  left === null ? right : right === null ? left : Math.max(left, right);

/**
 * The bus by every law with both references, in the order of `byEveryLaw`.
 * @param strengths in the order of the bus's parts, which no law changes
 * @param outlets left, right and mono of this bus
 * @param alone peak of the loudest single channel, dBFS
 */
export const lawFigures = (
  setup: Setup,
  bus: Bus,
  strengths: readonly ChannelLevels[],
  outlets: readonly [Outlet, Outlet, Outlet],
  limits: readonly CeilingLevel[],
  alone: Db,
): LawFigures[] => {
  const trims = trimsOf(bus);
  return byEveryLaw(setup.desk, (console) => {
    const parts = mixedChannelsOf({ ...setup, desk: console }, bus);
    const peakAt = (outlet: Outlet): Db =>
      levelOf(totalsOf(contributionsAt(parts, strengths, outlet)).likely);
    const likely: Sides<Db> = [peakAt(outlets[0]), peakAt(outlets[1])];
    const lowest = limitingStageOf(ceilingsOf(limits, likely, setup.preferences.targetHeadroom));
    return {
      likely,
      likelyMono: peakAt(outlets[2]),
      loss: worse(headroomLossOf(likely, trims, alone)),
      headroom: lowest.headroom,
      lowest: lowest.place,
    };
  });
};
