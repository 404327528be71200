import { keysOf } from "../lib/keys";
import { sumOf } from "../lib/mean";
import { remembered } from "../lib/memo";
import type { Tell } from "../lib/tell";
import { mixedChannelsOf } from "../mix/bus";
import { busOf } from "../mix/ear-gains";
import { ANSWERS, hearsFoh } from "../model/kinds";
import type { Action, Id, Listener, Setup } from "../model/setup";
import { ACTIONS } from "./actions";
import { FAULTS, type Fault } from "./faults";
import { type Hypothesis, hypothesesOf } from "./hypotheses";
import { isOverhead } from "./paths";
import { drumsIn, OVERHEAD_LEVELS, pickupOf } from "./pickup";
import {
  type Chances,
  chancesMaker,
  differenceOf,
  heardOf,
  type ProbeChances,
  predicted,
  priorJoint,
} from "./responses";

/** Something that can be asked: hit this drum, with this done before; null is a hit by itself. */
export interface Probe {
  readonly piece: Id;
  readonly action: Action | null;
}

/** A state the path can be in, with how it would be answered. */
export interface Candidate extends Pick<Hypothesis, "id" | "fault" | "channel"> {
  /** Chance before the first hit; those of all candidates sum to 1. */
  readonly prior: number;
  /** In the order of the check's probes. */
  readonly chances: readonly ProbeChances[];
}

/** Why nothing can be checked. */
export type Obstacle = "audience" | "no-bus" | "no-drum";

/** All that a check needs of a setup and a listener; made once, then asked with growing lists of hits. */
export interface Check {
  readonly probes: readonly Probe[];
  /** The actions that this bus and listener have a use for. */
  readonly actions: readonly Action[];
  /** "planned" first. */
  readonly candidates: readonly Candidate[];
  /** Faults that no answer could ever tell from as planned: nothing is said of them but that. */
  readonly unfindable: readonly Pick<Hypothesis, "id" | "fault" | "channel">[];
  /** Chance of each level of the overheads before the first hit, in the order of `ProbeChances`. */
  readonly overheads: readonly number[];
  /** Null when there is something to check. */
  readonly obstacle: Obstacle | null;
}

/** A fault counts as findable where some probe brings so many other answers, over everybody. A design choice. */
const FINDABLE = 0.1;

const without = (obstacle: Obstacle): Check => ({
  probes: [],
  actions: [],
  candidates: [],
  unfindable: [],
  overheads: [],
  obstacle,
});

/** The same object for the same lists, so that what is worked out of one probe serves every other that is heard alike. */
const sameLists = (): ((lists: ProbeChances) => ProbeChances) => {
  const byFirst = remembered((_: Chances) => new Map<Chances, ProbeChances>());
  return (lists) => {
    const [first, last] = [lists[0], lists.at(-1)] as [Chances, Chances];
    const known = byFirst(first).get(last);
    if (known) return known;
    byFirst(first).set(last, lists);
    return lists;
  };
};

/**
 * Prepares a check of what a listener hears: what can be asked, what can be wrong, how each would be answered.
 * @param tell hears how far it has come
 */
export const checkOf = (setup: Setup, listener: Listener, tell: Tell = () => {}): Check => {
  if (hearsFoh(listener)) return without("audience");
  const bus = busOf(setup, listener);
  if (!bus) return without("no-bus");
  const pickup = pickupOf(setup);
  const drums = drumsIn(setup, bus, pickup);
  if (drums.length === 0) return without("no-drum");

  const parts = mixedChannelsOf(setup, bus);
  const above = parts.filter((p) => isOverhead(setup, p));
  const levels = above.length > 0 ? OVERHEAD_LEVELS : OVERHEAD_LEVELS.slice(0, 1);
  const usable: Readonly<Record<Action, boolean>> = {
    "mute-overheads": above.length > 0 && above.length < parts.length,
    mono: bus.stereo && !listener.mono && above.length < parts.length,
    "first-input": bus.stereo,
    "balance-left": bus.stereo && !listener.mono,
    "balance-right": bus.stereo && !listener.mono,
  };
  const actions = keysOf(ACTIONS).filter((action) => usable[action]);
  const asked = [null, ...actions].flatMap((action) => drums.map((piece) => ({ piece, action })));

  const levelsWeigh = sumOf(levels.map((l) => l.prior));
  const hypotheses = hypothesesOf(setup, listener, bus, pickup, drums);
  const chancesOf = chancesMaker();
  const imagesOf = ({ image }: Hypothesis) =>
    asked.map(({ piece, action }) => levels.map(({ level }) => image(piece, level, action)));
  const [planned] = hypotheses as [Hypothesis];
  const asPlanned = imagesOf(planned);
  const listsOf = sameLists();
  const plannedChances = asPlanned.map((images) =>
    listsOf(images.map((image) => chancesOf(heardOf(image, image)))),
  );
  const chances = (hypothesis: Hypothesis): readonly ProbeChances[] =>
    asked.map(({ piece, action }, probe) => {
      const same = plannedChances[probe] as ProbeChances;
      if (!hypothesis.touches(piece)) return same;
      return listsOf(
        levels.map(({ level }, at) => {
          const image = hypothesis.image(piece, level, action);
          return chancesOf(heardOf(image, asPlanned[probe]?.[at] ?? image));
        }),
      );
    });

  const overheads = levels.map(({ prior }) => prior / levelsWeigh);
  const everybody = priorJoint([1]);
  const answersAt = remembered((chances: Chances) => predicted(everybody, [chances]));
  const answersTo = remembered((lists: ProbeChances) =>
    ANSWERS.map((_, answer) =>
      sumOf(lists.map((list, level) => (overheads[level] as number) * (answersAt(list)[answer] as number))),
    ),
  );
  const isFindable = (lists: readonly ProbeChances[]): boolean =>
    lists.some((list, probe) => {
      const same = plannedChances[probe] as ProbeChances;
      return list !== same && differenceOf(answersTo(list), answersTo(same)) >= FINDABLE;
    });
  const others = hypotheses
    .filter((hypothesis) => hypothesis !== planned)
    .map((hypothesis, at) => {
      tell(at / hypotheses.length);
      return { hypothesis, chances: chances(hypothesis) };
    });
  const findable = new Set(others.filter((other) => isFindable(other.chances)));
  const found = [{ hypothesis: planned, chances: plannedChances }, ...findable];
  const weight = (fault: Fault): number => FAULTS[fault].weight;
  const all = sumOf(found.map(({ hypothesis }) => weight(hypothesis.fault)));
  const named = ({ id, fault, channel }: Hypothesis) => ({ id, fault, channel });
  return {
    probes: asked.map(({ piece, action }) => ({ piece: piece.id, action })),
    actions,
    candidates: found.map(({ hypothesis, chances: lists }) => ({
      ...named(hypothesis),
      prior: weight(hypothesis.fault) / all,
      chances: lists,
    })),
    unfindable: others.filter((other) => !findable.has(other)).map(({ hypothesis }) => named(hypothesis)),
    overheads,
    obstacle: null,
  };
};
