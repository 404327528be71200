import { partsOf } from "../mix";
import { isReversed } from "../patched";
import { heardPlace } from "../position";
import type { Id, Setup, Source, Sum } from "../setup";
import { APART, COSTS } from "./costs";
import { type FreeReason, freedBy, type Move } from "./move";
import type { Choice, Item } from "./search";
import { firstOfSide, type Patched, patchedThings, repeatsOf } from "./sides";
import { anyOn, sumsFed } from "./usage";

/** What can be done with one thing in the slots, and the thing. */
export interface ThingChoices extends Item<Move> {
  readonly thing: Patched;
}

const choice = (move: Move, cost: number): Choice<Move> => ({ move, cost, frees: freedBy(move) });

const freeing = (thing: Patched, why: FreeReason, slots: readonly number[]): Choice<Move>[] =>
  slots.length === 0
    ? []
    : [choice({ move: "free", why, of: thing.kind, id: thing.id, slots }, COSTS.free[why] * slots.length)];

const folding = (setup: Setup, thing: Patched, cost: number): Choice<Move>[] => {
  const sides = (["left", "right"] as const).map((side) => firstOfSide(setup, thing, side));
  if (!thing.stereo || sides.includes(-1)) return [];
  const keeps = thing.slots.find((i) => setup.monitor.slots[i]?.on) ?? (thing.slots[0] as number);
  return [choice({ move: "fold", of: thing.kind, id: thing.id, keeps, slots: thing.slots }, cost)];
};

const choicesOfSum = (setup: Setup, thing: Patched, sum: Sum): ThingChoices => {
  const off = thing.slots.filter((i) => !setup.monitor.slots[i]?.on);
  const copies = repeatsOf(setup, thing).map((r) => r.index);
  const collapsing = partsOf(setup, sum).filter((p) => heardPlace(p.legs) !== "middle").length;
  const foldCost = COSTS.foldPair + COSTS.foldImage * collapsing;
  return {
    thing,
    join: null,
    choices: [
      ...freeing(thing, "copy", copies),
      ...freeing(thing, "off", off),
      ...(sum.folded || off.length === thing.slots.length ? [] : folding(setup, thing, foldCost)),
    ],
  };
};

/** What it costs a source to lose its sides: nothing where it has none. */
const sidesCost = (source: Source): number =>
  source.channels === 1 ? 0 : COSTS.foldSource + (source.keepSides ? COSTS.keepSides : 0);

const intoCost = (setup: Setup, source: Source, sum: Sum, inside: readonly Source[]): number => {
  const { like, strange, family } = APART[source.kind];
  const known = family !== null && inside.some((s) => APART[s.kind].family === family);
  const turned = sum.stereo && source.keepSides && isReversed(setup, sum) ? COSTS.keepSides : 0;
  return (known ? like : strange) + (sum.stereo ? turned : sidesCost(source));
};

/** A sum that reaches the listeners and what sounds in it. */
interface Target {
  readonly sum: Sum;
  readonly inside: readonly Source[];
}

const choicesOfSource = (
  setup: Setup,
  thing: Patched,
  source: Source,
  targets: readonly Target[],
): ThingChoices => {
  const { slots } = thing;
  const off = slots.filter((i) => !setup.monitor.slots[i]?.on);
  // A feed that is silent is only ever freed: nothing tells how it should sound elsewhere.
  if (source.muted) return { thing, join: null, choices: freeing(thing, "muted", slots) };
  if (!anyOn(setup.monitor, slots)) return { thing, join: null, choices: freeing(thing, "off", slots) };
  const { like, family } = APART[source.kind];
  const within = targets.some((t) => t.inside.includes(source));
  const move = (sum: Id): Move => ({ move: "into", source: source.id, sum, slots });
  return {
    thing,
    join: family === null ? null : { family, frees: slots.length, cost: like + sidesCost(source) },
    choices: [
      ...freeing(
        thing,
        "copy",
        repeatsOf(setup, thing).map((r) => r.index),
      ),
      ...freeing(thing, "off", off),
      ...(within ? freeing(thing, "twice", slots) : []),
      ...folding(setup, thing, sidesCost(source)),
      ...targets
        .filter((t) => !t.inside.includes(source))
        .map((t) => choice(move(t.sum.id), intoCost(setup, source, t.sum, t.inside))),
    ],
  };
};

/**
 * What can be done with each thing in the slots, those of one family one after the other.
 * Of each thing one choice at most is made.
 */
export const choicesOf = (setup: Setup): ThingChoices[] => {
  const targets = sumsFed(setup).map(
    (sum): Target => ({
      sum,
      inside: partsOf(setup, sum).map((p) => p.source),
    }),
  );
  const choices = patchedThings(setup).flatMap((thing): ThingChoices[] => {
    const sum = thing.kind === "sum" && setup.sums.find((s) => s.id === thing.id);
    if (sum) return [choicesOfSum(setup, thing, sum)];
    const source = setup.sources.find((s) => s.id === thing.id);
    return source ? [choicesOfSource(setup, thing, source, targets)] : [];
  });
  const family = (o: ThingChoices): string => o.join?.family ?? "";
  return choices.sort((a, b) => (family(a) < family(b) ? -1 : family(a) > family(b) ? 1 : 0));
};
