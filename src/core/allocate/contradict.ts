import type { Id } from "../model/setup";
import { chargesOf, type Where } from "./charges";
import { type AllocationItem, itemsOf } from "./items";
import type { LossCode } from "./losses";
import type { AllocationProblem, BusPin, Pin } from "./model";
import { solve } from "./solve";
import { canStand, inputsFrom, type Placed, placedIn } from "./space";

/** Something that is not up for choice: what is pinned, or what a rule says must be. */
export type Wish =
  | { readonly by: "pin"; readonly channel: Id; readonly pin: Pin }
  | { readonly by: "bus-pin"; readonly pin: BusPin }
  | {
      readonly by: "rule";
      readonly channel: Id;
      readonly own: boolean;
      readonly stereo: boolean;
      readonly heard: boolean;
      /** Inputs that it takes by itself. */
      readonly inputs: number;
    };

/** Wishes of which any one less could be kept together, but not all of them. */
export interface Contradiction {
  readonly wishes: readonly Wish[];
  /** Inputs that they would need; null where no number of inputs is enough. */
  readonly needs: number | null;
}

/** What a rule that says “must” does not allow to be lost. */
export const MUSTS: readonly LossCode[] = ["unheard", "must-own-shared", "sides-lost"];

const wishOf = ({ channel, rule, stereo, unheard }: AllocationItem): Wish[] => {
  if (channel.pin) return [{ by: "pin", channel: channel.id, pin: channel.pin }];
  const own = rule.own === "must";
  const isWide = stereo === "must" && (channel.width === 2 || !own);
  const wish = { own, stereo: isWide, heard: unheard > 0, inputs: isWide ? 2 : 1 };
  return own || isWide || wish.heard ? [{ by: "rule", channel: channel.id, ...wish }] : [];
};

/** All wishes, the heaviest first: a set that begins with them is complete with the fewest. */
const wishesOf = (problem: AllocationProblem): Wish[] => {
  const weight = (wish: Wish): number => {
    if (wish.by === "bus-pin") return 4 * wish.pin.width + 2;
    if (wish.by === "rule") return 4 * wish.inputs + (wish.own ? 2 : 0);
    return wish.pin.as === "own" ? 4 * wish.pin.width + (wish.pin.input === null ? 2 : 3) : 4;
  };
  const buses = problem.busPins.map((pin): Wish => ({ by: "bus-pin", pin }));
  return [...buses, ...itemsOf(problem).flatMap(wishOf)].sort((a, b) => weight(b) - weight(a));
};

/** The problem with nothing in it that is not up for choice but these wishes. */
const onlyWith = (problem: AllocationProblem, wishes: readonly Wish[]): AllocationProblem => {
  const busPins = wishes.flatMap((w) => (w.by === "bus-pin" ? [w.pin] : []));
  const named = new Set(wishes.flatMap((w) => ("channel" in w ? [w.channel] : [])));
  // A pinned bus is known by what could lie in it.
  const channels = problem.channels.filter((c) => busPins.length > 0 || named.has(c.id));
  return {
    ...problem,
    busPins,
    channels: channels.map((c) => (named.has(c.id) ? c : { ...c, pin: null })),
  };
};

const canKeep = (problem: AllocationProblem, wishes: readonly Wish[]): boolean => {
  const swapped = new Set(problem.swapped);
  const ruled = new Set(wishes.flatMap((w) => (w.by === "rule" ? [w.channel] : [])));
  const allows = (item: AllocationItem, where: Where): boolean => {
    if (!ruled.has(item.channel.id)) return true;
    const charges = chargesOf(item, where, swapped);
    return MUSTS.every((code) => !charges[code]);
  };
  return solve(onlyWith(problem, wishes), [], allows) !== null;
};

/** The wishes of the set that are needed for it to contradict what is given; those that come first are kept first. */
const needed = (
  given: readonly Wish[],
  set: readonly Wish[],
  fits: (w: readonly Wish[]) => boolean,
): Wish[] => {
  if (set.length === 0 || !fits(given)) return [];
  if (set.length === 1) return [...set];
  const half = Math.ceil(set.length / 2);
  const [first, second] = [set.slice(0, half), set.slice(half)];
  const ofSecond = needed([...given, ...first], second, fits);
  return [...needed([...given, ...ofSecond], first, fits), ...ofSecond];
};

const sameInputs = (a: Placed, b: Placed): boolean =>
  inputsFrom(a.input, a.width).some((n) => inputsFrom(b.input, b.width).includes(n));

/** Two wishes for the same input, or one where nothing can stand. */
const clash = (problem: AllocationProblem, wishes: readonly Wish[]): Wish[] | null => {
  const placed = wishes.flatMap((wish) =>
    placedIn(onlyWith(problem, [wish]))
      .filter(({ of }) => wish.by === "bus-pin" || "channel" in of)
      .map((place) => ({ wish, place })),
  );
  const bad = placed.find(({ place }) => !canStand(problem, place));
  if (bad) return [bad.wish];
  for (const [i, a] of placed.entries())
    for (const b of placed.slice(i + 1)) if (sameInputs(a.place, b.place)) return [a.wish, b.wish];
  return null;
};

const needsOf = (problem: AllocationProblem, wishes: readonly Wish[]): number | null => {
  const most = problem.inputs + 2 * wishes.length + 2;
  for (let inputs = problem.inputs + 1; inputs <= most; inputs += 1)
    if (canKeep({ ...problem, inputs }, wishes)) return inputs;
  return null;
};

/**
 * The smallest set of wishes that cannot be kept together; null where all can. Where the pins alone are impossible, only
 * they are named: no rule has to give way then.
 *
 * One wish that is impossible by itself and two for the same input are looked for first. Everything else is a matter of
 * how many inputs there are, and there the fewest wishes are those that take most: the set is built from the heaviest
 * downwards, and leaves out whatever it contradicts itself without (QuickXplain; Junker, AAAI 2004, from memory).
 */
export const contradictionOf = (problem: AllocationProblem): Contradiction | null => {
  const all = wishesOf(problem);
  const pins = all.filter((w) => w.by !== "rule");
  const fits = (wishes: readonly Wish[]): boolean => canKeep(problem, wishes);
  const wishes = fits(pins) ? all : pins;
  if (fits(wishes)) return null;
  const alone = wishes.find((wish) => !fits([wish]));
  const set = alone ? [alone] : (clash(problem, wishes) ?? needed([], wishes, fits));
  return { wishes: set, needs: needsOf(problem, set) };
};
