import { busCharges, chargesOf, mayGo, type Where } from "./charges";
import type { AllocationItem } from "./items";
import type { Packing } from "./losses";
import type { AllocationProblem, BusId, Width } from "./model";
import { isLess, type Shape, type StageOption } from "./stage";
import { type BusNode, withinOf } from "./tree";

/** Whether a channel may go there. */
export type Allows = (item: AllocationItem, where: Where) => boolean;

/** One decision of the search: where a channel goes, or that a bus is made. */
export type ItemChoice =
  | { readonly item: AllocationItem; readonly where: Where }
  | { readonly bus: BusNode; readonly width: Width };

/** What a search knows throughout. */
export interface Search {
  readonly shape: Shape;
  readonly pack: Packing["pack"];
  /** How a channel can go there; null where it may not. */
  readonly optionOf: (item: AllocationItem, where: Where) => StageOption<ItemChoice> | null;
  readonly pins: ReadonlyMap<BusId, AllocationProblem["busPins"][number]>;
}

const OWN: readonly Where[] = [
  { as: "own", width: 1 },
  { as: "own", width: 2 },
];
/** On no input. */
export const OUT: Where = { as: "out" };

/** A bus that is made. */
export const busOption = (search: Search, bus: BusNode, width: Width): StageOption<ItemChoice> => {
  const stands = (search.pins.get(bus.id)?.input ?? null) !== null;
  return {
    cost: search.pack(busCharges(width)),
    inputs: stands ? 0 : width,
    pairs: stands ? 0 : width - 1,
    choice: { bus, width },
  };
};

/** How channels can go places, worked out once for each. */
export const optionsBy = (
  pack: Packing["pack"],
  swapped: ReadonlySet<BusId>,
  allows: Allows,
): Search["optionOf"] => {
  const known = new Map<AllocationItem, Map<Where, StageOption<ItemChoice> | null>>();
  const make = (item: AllocationItem, where: Where): StageOption<ItemChoice> | null => {
    if (!mayGo(item, where, swapped) || !allows(item, where)) return null;
    const stands = item.channel.pin?.as === "own" && item.channel.pin.input !== null;
    const inputs = where.as === "own" && !stands ? where.width : 0;
    const cost = pack(chargesOf(item, where, swapped));
    return { cost, inputs, pairs: inputs === 2 ? 1 : 0, choice: { item, where } };
  };
  return (item, where) => {
    const ways = known.get(item) ?? new Map<Where, StageOption<ItemChoice> | null>();
    known.set(item, ways);
    const option = ways.get(where);
    if (option !== undefined) return option;
    const made = make(item, where);
    ways.set(where, made);
    return made;
  };
};

/**
 * What a channel can do once it is decided which buses are made: an input or two of its own, or the cheapest of what takes
 * no input; no dearer one of these can be part of a cheapest allocation.
 */
export const itemOptions = (
  { optionOf, shape }: Search,
  item: AllocationItem,
  open: readonly Where[],
): StageOption<ItemChoice>[] => {
  let free: StageOption<ItemChoice> | null = null;
  for (const where of [...open, OUT]) {
    const option = optionOf(item, where);
    if (option && (!free || isLess(option.cost, 0, free.cost, 0, shape.words))) free = option;
  }
  return [free, ...OWN.map((where) => optionOf(item, where))].filter((option) => option !== null);
};

/** Whether a channel comes in by a bus now. */
const comesBy = ({ channel: { current } }: AllocationItem, bus: BusId, width?: Width): boolean =>
  current?.as === "bus" && current.bus === bus && (width ?? current.width) === current.width;

/**
 * The widths a bus is tried in, 0 for not made. Where no sides are lost in it and it is not in stereo now, stereo only takes
 * an input more. A bus that there is not and that only one channel could lie in takes as much as that channel alone and
 * loses no less.
 */
const widthsOf = (node: BusNode, pins: Search["pins"]): readonly (0 | Width)[] => {
  const pinned = pins.get(node.id)?.width;
  if (pinned) return [pinned];
  const items = withinOf(node).flatMap((n) => n.items);
  const isNow = items.some((item) => comesBy(item, node.id));
  const isOfOne = node.level !== "fold-back" && items.length < 2 && items[0]?.channel.pin?.as !== "shared";
  if (isOfOne && !isNow) return [0];
  return items.some((item) => item.stereo !== "no" || comesBy(item, node.id, 2)) ? [0, 1, 2] : [0, 1];
};

/** One way to have each bus, the same object each time: what lies in it is worked out once. */
export interface Ways {
  readonly node: BusNode;
  readonly wheres: readonly ((Where & { as: "bus" }) | null)[];
  readonly within: readonly Ways[];
}

/** Every bus with the ways to have it. */
export const waysOf = (node: BusNode, pins: Search["pins"]): Ways => ({
  node,
  wheres: widthsOf(node, pins).map((width) => (width === 0 ? null : { as: "bus", node, width })),
  within: node.within.map((inner) => waysOf(inner, pins)),
});
