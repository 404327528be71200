import { once, remembered } from "../lib/memo";
import type { Listener } from "../model/setup";
import type { Db } from "../model/units";
import { badnessOf, compareBadness } from "./badness";
import { busesWith, type Effect, effectElsewhere, effectsFor } from "./effects";
import { elsewhere } from "./elsewhere";
import type { BusChange, Mirrored, Panning, RecommendOption, Situation } from "./model";
import { besideOwn, bestMirrored, crowdOf, fewest } from "./pans";
import { type Hearing, type Viewpoint, viewpoints } from "./tally";

/** Inputs of a bus of one's own, and what it takes to make: copying it, patching it. */
const OWN = { inputs: 2, moves: 2 } as const;

/** Which of two options is better for one listener by itself: negative when the former is. */
export const compareOptions = (a: RecommendOption, b: RecommendOption): number =>
  compareBadness(a.badness, b.badness) || a.inputs - b.inputs || a.moves - b.moves || a.residual - b.residual;

/** The best bus of their own for somebody, by which channel pans are mirrored beside it, of those that it minds. */
export type OwnOption = (minding: Mirrored) => RecommendOption;

/** What comes of what may be done for each listener: worked out once, at the first look. */
export interface Outlook {
  /** What mirrored pans do for a member who hears the bus in some order; `flips` at their own mixer beside what is now. */
  readonly effect: (
    member: Listener,
    turned: boolean,
    order: Hearing["order"],
    flips: boolean,
    panning: Panning,
  ) => Effect;
  /** What mirrored channel pans do for those who do not hear the bus, in the order of `others`. */
  readonly elsewhere: (turned: readonly string[], fohChanges: boolean) => readonly Effect[];
  readonly own: (member: Listener, turned: boolean) => OwnOption;
  /** Of some channels those whose mirrored channel pan a bus of one's own minds, which does not follow it. */
  readonly minding: (channels: Mirrored) => Mirrored;
}

/** The outlook of a situation. */
export const outlookOf = (situation: Situation): Outlook => {
  const { voices } = situation;
  const viewOf = viewpoints(situation);
  const apart = elsewhere(situation);
  const effects = remembered((view: Viewpoint) => {
    const known = new Map<string, (panning: Exclude<Panning, "keep">) => Effect>();
    return (hearing: Hearing): ((panning: Exclude<Panning, "keep">) => Effect) => {
      const key = `${hearing.order} ${hearing.flipped}`;
      const its = known.get(key) ?? remembered(effectsFor(situation, view, hearing));
      known.set(key, its);
      return its;
    };
  });
  // Only one channel that must keep its side minds what becomes of its channel pan.
  const minds = voices.map(({ channel }) => channel.keepSides && channel.lines === 1);
  const ownIn = (view: Viewpoint, flipped: boolean, swap: boolean): OwnOption => {
    const hearing = { order: "as is", flipped: flipped !== swap } as const;
    const effect = effects(view)(hearing)("bus");
    const alone = fewest(effect, bestMirrored(voices.length, crowdOf([effect]), []));
    const isAlone = new Set(alone.mirrored);
    /** A copy with some pans the other way than it has alone. Of hundreds a handful is chosen: the rest is never spelt out. */
    const option = (
      turned: Mirrored,
      count: number,
      badness: RecommendOption["badness"],
    ): RecommendOption => ({
      badness,
      inputs: OWN.inputs,
      moves: OWN.moves + count,
      get choice() {
        const back = new Set(turned);
        const mirrored = voices.flatMap((_, at) => (isAlone.has(at) !== back.has(at) ? [at] : []));
        return { does: "own bus", swap, mirrored } as const;
      },
      get residual() {
        if (view.mono) return 0;
        const back = new Set(turned);
        let most = 0;
        const take = (at: number): void => {
          most = Math.max(most, voices[at]?.residual[1][0] ?? 0);
        };
        for (const at of alone.mirrored) if (!back.has(at)) take(at);
        for (const at of turned) if (!isAlone.has(at)) take(at);
        return most;
      },
    });
    const usual = option([], alone.mirrored.length, alone.badness);
    const beside = once(() => besideOwn(situation, view, hearing, effect, alone.mirrored));
    return (minding) => {
      if (minding.length === 0) return usual;
      const { effect: its, turns } = beside();
      const turned = minding.filter((at) => turns[at] !== 0);
      const count = turned.reduce((sum, at) => sum + (turns[at] as number), alone.mirrored.length);
      return option(turned, count, badnessOf(busesWith(its, minding)));
    };
  };
  const owns = remembered((view: Viewpoint) =>
    remembered((flipped: boolean): OwnOption => {
      const [swapped, straight] = [ownIn(view, flipped, true), ownIn(view, flipped, false)];
      return (minding) => {
        const [a, b] = [swapped(minding), straight(minding)];
        return (compareBadness(a.badness, b.badness) || a.moves - b.moves) <= 0 ? a : b;
      };
    }),
  );
  const effectsElsewhere = remembered((its: ReturnType<typeof apart>[number]) => effectElsewhere(its));
  return {
    effect: (member, turned, order, flips, panning) =>
      effects(viewOf(member, turned))({ order, flipped: !member.mono && member.flipped !== flips })(
        panning === "foh" ? "foh" : "bus",
      ),
    elsewhere: (turned, fohChanges) => apart(turned, fohChanges).map(effectsElsewhere),
    minding: (channels) => channels.filter((at) => minds[at]),
    own: (member, turned) => owns(viewOf(member, turned))(member.flipped),
  };
};

/** How far a change of the bus is from an exact mirror, dB: in the bus, and at FOH. */
export const residualsOf = (
  { voices }: Situation,
  { swap, fold, panning, mirrored }: BusChange,
): { readonly bus: Db; readonly foh: Db } => {
  const set = new Set(mirrored);
  const isFoh = panning === "foh";
  let [bus, foh] = [0, 0];
  voices.forEach(({ residual, send, fohResidual }, at) => {
    const is = set.has(at);
    const inBus = is && (!isFoh || send.pan === null);
    bus = Math.max(bus, residual[inBus ? 1 : 0][swap ? 1 : 0]);
    if (is && isFoh) foh = Math.max(foh, fohResidual);
  });
  return { bus: fold ? 0 : bus, foh };
};
