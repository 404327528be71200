import type { Effect } from "./effects";
import type { BusChange, ListenerChoice, Premises, RankedPlan, Situation } from "./model";
import type { Outlook, OwnOption } from "./options";
import { type Crowd, crowdOf } from "./pans";
import { hasSides } from "./situation";

/** A member in one order of the bus, with the pans of one kind. */
export interface Seat {
  readonly isFirst: boolean;
  readonly mono: boolean;
  readonly nothing: Effect;
  /** Null where no mixer can flip, and where a flip changes nothing: for who hears both sides in one, and of a mono bus. */
  readonly flip: Effect | null;
  readonly own: OwnOption | null;
}

/** A bus in one order with the pans of one kind: what is to be filled in is which are mirrored. */
export interface Frame {
  readonly situation: Situation;
  readonly freeInputs: number;
  readonly change: Omit<BusChange, "mirrored">;
  readonly seats: readonly Seat[];
  readonly minding: Outlook["minding"];
  /** Who does not hear the bus; their effects are of channel pans. */
  readonly elsewhere: readonly Hearer[];
}

/** The frame of one change of the bus, for premises. */
export const frameOf = (
  situation: Situation,
  { first, freeInputs, turned }: Premises,
  outlook: Outlook,
  change: Frame["change"],
): Frame => {
  const sides = hasSides(situation.bus);
  const canFlip = situation.setup.monitor.mixers.flip;
  const order = change.fold ? "folded" : change.swap ? "swapped" : "as is";
  return {
    situation,
    freeInputs,
    change,
    minding: outlook.minding,
    seats: situation.members.map((member) => {
      const isTurned = turned.includes(member.id);
      const effect = (flips: boolean): Effect =>
        outlook.effect(member, isTurned, order, flips, change.panning);
      return {
        isFirst: member.id === first,
        mono: member.mono,
        nothing: effect(false),
        flip: sides && canFlip && !member.mono ? effect(true) : null,
        own: sides ? outlook.own(member, isTurned) : null,
      };
    }),
    elsewhere: outlook
      .elsewhere(turned, change.panning === "foh")
      .map((effect, at) => ({ isFirst: situation.others[at]?.id === first, effect })),
  };
};

/** What each member does. */
export type MeansSet = readonly ListenerChoice["does"][];

/** What each member does by a plan. */
export const wayOf = ({ choices }: RankedPlan): MeansSet => choices.map((c) => c.does);

/** Who hears what pans bear on: whether they matter most, and how it bears on them. */
export interface Hearer {
  readonly isFirst: boolean;
  readonly effect: Effect;
}

/** Everybody on whom a set of pans bears by what each does: who matters most or not, and how it bears on them. */
export const hearersOf = ({ seats, elsewhere, change }: Frame, way: MeansSet): readonly Hearer[] => {
  const hearers = seats.flatMap(({ isFirst, nothing, flip }, at) =>
    way[at] === "own bus" ? [] : [{ isFirst, effect: way[at] === "flip" && flip ? flip : nothing }],
  );
  return change.panning === "foh" ? [...hearers, ...elsewhere] : hearers;
};

/** The hearers as two crowds. */
export const crowdsOf = (hearers: readonly Hearer[]): readonly [first: Crowd, others: Crowd] => {
  const of = (isFirst: boolean): Crowd =>
    crowdOf(hearers.filter((h) => h.isFirst === isFirst).map((h) => h.effect));
  return [of(true), of(false)];
};
