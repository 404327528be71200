import { levelOf, levelOfPower } from "../decibels";
import { LAWS } from "../laws";
import { partsOf } from "../mix";
import type { LawId, LawReference, Setup, Sum } from "../setup";
import type { Db, Legs, Outlet } from "../units";
import { arrivalsAt, type Strength } from "./arrivals";
import { type CeilingPlace, ceilingsOf, type Limit, lowestOf, trimsOf } from "./ceilings";
import { lossOf } from "./loss";
import { totalsOf } from "./totals";

/** What the sum would be if the console's law were this one. */
export interface LawFigures {
  readonly law: LawId;
  readonly reference: LawReference;
  /** The console's own law and reference, as it is set. */
  readonly believed: boolean;
  readonly likely: Legs<Db>;
  readonly level: Legs<Db>;
  readonly mono: { readonly likely: Db; readonly level: Db };
  /** Headroom loss of the worse leg, dB; null where nothing sounds. */
  readonly loss: Db | null;
  /** Headroom at the lowest ceiling, dB. */
  readonly headroom: Db;
  readonly lowest: CeilingPlace;
}

const REFERENCES: readonly LawReference[] = ["sides", "centre"];

const worse = ([left, right]: Legs<Db | null>): Db | null =>
  left === null ? right : right === null ? left : Math.max(left, right);

/**
 * The sum by every law with both references, in the order in which laws are shown, sides first.
 * @param strengths in the order of the sum's parts, which no law changes
 * @param outlets left, right and mono of this sum
 * @param alone peak of the loudest single source, dBFS
 */
export const lawRows = (
  setup: Setup,
  sum: Sum,
  strengths: readonly Strength[],
  outlets: readonly [Outlet, Outlet, Outlet],
  limits: readonly Limit[],
  alone: Db,
): LawFigures[] => {
  const believed = setup.console;
  const trims = trimsOf(sum);
  const row = (law: LawId, reference: LawReference): LawFigures => {
    const parts = partsOf({ ...setup, console: { ...believed, law, reference } }, sum);
    const [left, right, mono] = outlets.map((o) => totalsOf(arrivalsAt(parts, strengths, o))) as [
      ReturnType<typeof totalsOf>,
      ReturnType<typeof totalsOf>,
      ReturnType<typeof totalsOf>,
    ];
    const likely: Legs<Db> = [levelOf(left.likely), levelOf(right.likely)];
    const lowest = lowestOf(ceilingsOf(limits, likely, setup.wishes.margin));
    return {
      law,
      reference,
      believed: law === believed.law && reference === believed.reference,
      likely,
      level: [levelOfPower(left.power), levelOfPower(right.power)],
      mono: { likely: levelOf(mono.likely), level: levelOfPower(mono.power) },
      loss: worse(lossOf(likely, trims, alone)),
      headroom: lowest.headroom,
      lowest: lowest.place,
    };
  };
  return Object.values(LAWS).flatMap(({ id }) => REFERENCES.map((reference) => row(id, reference)));
};
