import { busCharges, chargesOf, isApart, type Where } from "./charges";
import { type AllocationItem, itemsOf } from "./items";
import { type Charges, compareCharges, type LossCode, packing, totalOf, WORST_FIRST } from "./losses";
import type { AllocationProblem, BusId, Width } from "./model";
import {
  type Allows,
  busOption,
  type ItemChoice,
  itemOptions,
  OUT,
  optionsBy,
  type Search,
  type Ways,
  waysOf,
} from "./options";
import { spaceOf } from "./space";
import { cheapestCell, cheapestOf, choose, firstStage, type SearchStage, type Shape } from "./stage";
import { type BusNode, busTree, withinOf } from "./tree";

/** Who shares with whom; where it stands is decided after (`place.ts`). */
export interface Grouping {
  /** Every channel, in the conventional order. */
  readonly goes: readonly { readonly item: AllocationItem; readonly where: Where }[];
  /** The buses that are made, with what lies in them. */
  readonly buses: readonly {
    readonly node: BusNode;
    readonly width: Width;
    readonly items: readonly AllocationItem[];
  }[];
  /** All that is lost. */
  readonly charges: Charges;
}

/** No allocation counts more of anything than this. */
const mostOf = (items: readonly AllocationItem[], buses: number): { readonly [code in LossCode]: number } => {
  const each = Object.fromEntries(WORST_FIRST.map((code) => [code, items.length])) as {
    [code in LossCode]: number;
  };
  return {
    ...each,
    unheard: items.reduce((sum, item) => sum + item.unheard, 0),
    "not-all-apart": 1,
    "bus-made": buses,
    "input-used": 2 * (items.length + buses),
    "early-yields": items.reduce((sum, item) => sum + item.priority, 0),
  };
};

const nodeStage = (
  search: Search,
  before: SearchStage<ItemChoice>,
  { node, wheres, within }: Ways,
  open: readonly Where[],
): SearchStage<ItemChoice> =>
  cheapestOf(
    search.shape,
    wheres.map((where) => {
      let stage = where ? choose(search.shape, before, [busOption(search, node, where.width)]) : before;
      const made = where ? [where, ...open] : open;
      for (const inner of within) stage = nodeStage(search, stage, inner, made);
      for (const item of node.items) stage = choose(search.shape, stage, itemOptions(search, item, made));
      return stage;
    }),
  );

const isIndifferent = ({ rule }: AllocationItem): boolean => rule.own === "no-matter";

/** Whether that is no loss to what had better be apart with all others; what is left out shares with nobody. */
const keepsAllApart = (item: AllocationItem, where: Where): boolean =>
  !isIndifferent(item) || where.as === "out" || isApart(where);

const groupingOf = (
  choices: readonly ItemChoice[],
  items: readonly AllocationItem[],
  swapped: ReadonlySet<BusId>,
): Grouping => {
  const places = new Map(choices.flatMap((c) => ("item" in c ? [[c.item, c.where] as const] : [])));
  const goes = items.map((item) => ({ item, where: places.get(item) ?? OUT }));
  const buses = choices
    .flatMap((c) => ("bus" in c ? [c] : []))
    .map(({ bus, width }) => ({
      node: bus,
      width,
      items: goes.flatMap(({ item, where }) => (where.as === "bus" && where.node === bus ? [item] : [])),
    }));
  const charges = totalOf([
    ...goes.map(({ item, where }) => chargesOf(item, where, swapped)),
    ...buses.map(({ width }) => busCharges(width)),
    goes.every(({ item, where }) => keepsAllApart(item, where)) ? {} : { "not-all-apart": 1 },
  ]);
  return { goes, buses, charges };
};

/**
 * The cheapest way to share the inputs under the table of losses; null where what is pinned is impossible.
 *
 * Exact. (1) Whatever an allocation is, it makes some set of buses, each mono or stereo. With that set given, every loss
 * belongs to one channel or one bus and depends on nothing else but where that channel goes, so costs add up and channels
 * only compete for inputs. (2) The search goes through the tree of buses and tries each bus as not made, mono and stereo
 * (but for `widthsOf`); what lies in a bus is decided with that bus and all wider ones given, so every set of buses is
 * tried, and parts of the tree that do not contain each other are decided one after the other. (3) With the buses given,
 * `choose` is the knapsack of one channel after the other: it keeps the cheapest cost for every number of inputs taken,
 * and for every number of odd/even neighbours, where pins break neighbours so that these have to be counted too;
 * otherwise as many stereo feeds fit as have inputs. The packed costs add without carry and are compared as their digits
 * are, so cutting a dearer way to the same cell never cuts a cheapest one. (4) The one loss that is not a channel’s, “not
 * every channel that could be apart is”, is zero or one: both cases are solved and compared.
 * @param order the losses, worst first
 * @param allows what is allowed besides what rules and pins allow
 * @param most how many of the free inputs may be used
 */
export const solve = (
  problem: AllocationProblem,
  order: readonly LossCode[] = WORST_FIRST,
  allows: Allows = () => true,
  most = Number.POSITIVE_INFINITY,
): Grouping | null => {
  const space = spaceOf(problem);
  const items = itemsOf(problem);
  const root = busTree(items);
  const nodes = withinOf(root);
  const known = new Set(nodes.map((n) => n.id));
  if (space === null || !problem.busPins.every(({ bus }) => known.has(bus))) return null;
  const { words, pack } = packing(order, mostOf(items, nodes.length));
  const inputs = Math.min(space.free.length, most);
  const enough = Math.floor(inputs / 2);
  const shape: Shape = {
    inputs,
    pairs: space.pairs.length < enough ? space.pairs.length : null,
    words,
  };
  const pins = new Map(problem.busPins.map((pin) => [pin.bus, pin]));
  const swapped = new Set(problem.swapped);
  const ways = waysOf(root, pins);
  const onlyApart: Allows = (item, where) => allows(item, where) && keepsAllApart(item, where);
  const found = (items.some(isIndifferent) ? [onlyApart, allows] : [allows]).flatMap(
    (allowed): Grouping[] => {
      const search: Search = { shape, pack, pins, optionOf: optionsBy(pack, swapped, allowed) };
      const stage = nodeStage(search, firstStage(shape), ways, []);
      const cell = cheapestCell(shape, stage);
      if (cell === null) return [];
      const choices: ItemChoice[] = [];
      stage.trace(cell, choices);
      return [groupingOf(choices, items, swapped)];
    },
  );
  const [best] = found.sort((a, b) => compareCharges(a.charges, b.charges, order));
  return best ?? null;
};
