import { usageOf } from "../inputs/usage";
import type { Tell } from "../lib/tell";
import type { Setup } from "../model/setup";
import type { Where } from "./charges";
import { MUSTS } from "./contradict";
import { type PlanLoss, planLosses, structureOf } from "./explain";
import { planFeeds } from "./feeds";
import { type AllocationItem, itemsOf } from "./items";
import { type LossCode, WORST_FIRST } from "./losses";
import type { AllocationProblem, BusId } from "./model";
import { type Allows, OUT } from "./options";
import { type AllocationPlan, planOf } from "./plans";
import { type HandPins, problemOf } from "./problem";
import { type Grouping, solve } from "./solve";
import { spaceOf } from "./space";
import { ORDERS, promoted } from "./styles";
import { type BusNode, busTree, withinOf } from "./tree";

/** What has to go that the rest fits? */
export interface FreeingQuestion {
  /** What goes where, with everything that is patched now, beyond the last input too. */
  readonly problem: AllocationProblem;
  /** Inputs that take something now. */
  readonly used: number;
  /** How many of them must be freed, at least one. */
  readonly needed: number;
}

/** One way to free inputs: the best plan that has so many fewer, and nothing better than it is now. */
export interface WayToFree {
  /** How many inputs it frees. */
  readonly frees: number;
  readonly plan: AllocationPlan;
  /** What is lost that is not lost now, worst first. */
  readonly loses: readonly PlanLoss[];
}

/** What a setup asks that has more in its inputs than there is room for; null where everything has room. */
export const freeingQuestion = (setup: Setup, pins: HandPins): FreeingQuestion | null => {
  const { used, tooMany } = usageOf(setup);
  if (tooMany === 0) return null;
  const { monitor } = setup;
  const whole = { ...setup, monitor: { ...monitor, inputCount: monitor.inputs.length } };
  const problem = { ...problemOf(whole, pins), inputs: monitor.inputCount };
  return { problem, used: used.length, needed: tooMany };
};

const isWithin = (node: BusNode, bus: BusId): boolean => withinOf(node).some(({ id }) => id === bus);

/**
 * Whether a channel stays as it is, or gives way: from its own inputs to fewer or into any bus, from a bus into a wider
 * one. What is heard by no bus that a plan has may go anywhere; what is not heard now stays so. No bus is made for one
 * channel (`widthsOf`).
 */
const givesWay: Allows = ({ channel, aloneNow }, where) => {
  const { current, currentInputs, pin } = channel;
  if (pin !== null || where.as === "out") return true;
  if (current === null) return currentInputs.length > 0;
  if (where.as === "own") return (current.as === "own" || aloneNow) && where.width <= current.width;
  if (current.as === "own") return true;
  return where.node.id === current.bus ? where.width <= current.width : isWithin(where.node, current.bus);
};

/** Where each channel is now, as far as a plan could have it there. */
const goesNow = (items: readonly AllocationItem[]): Grouping["goes"] => {
  const nodes = new Map(withinOf(busTree(items)).map((node) => [node.id, node]));
  return items.flatMap((item) => {
    const { current, currentInputs } = item.channel;
    if (current?.as === "own") return [{ item, where: current }];
    const node = current && nodes.get(current.bus);
    if (node) return [{ item, where: { as: "bus", node, width: current.width } satisfies Where }];
    return currentInputs.length === 0 ? [{ item, where: OUT }] : [];
  });
};

/** What may give way first. */
const GIVING: readonly (readonly LossCode[])[] = [
  WORST_FIRST,
  // Stereo goes to mono; nobody shares with their family for it.
  promoted(["own-shared", "spare-own-shared", "not-all-apart", "own-input-lost"], "image-folded"),
  // Families share; what is stereo stays so.
  ORDERS.spare,
];

/** Of what loses the same, the one that changes least. */
const WAYS_FIRST = GIVING.map((order) => promoted(["changed"], "input-used", order));

/** The losses, worst first, and how many inputs more than must be freed: different ways to free those, then more. */
const ASKED = [
  ...WAYS_FIRST.map((order) => ({ order, more: 0 })),
  ...WAYS_FIRST.slice(0, 1).flatMap((order) => [1, 2].map((more) => ({ order, more }))),
];

/**
 * Ways to free inputs: what must be freed at least, in up to three ways, then one and two more. Each is the cheapest
 * allocation under the table with so many inputs (`solve`), where every channel stays as it is or gives way; of equal ones
 * the one that changes least. None where what is pinned leaves no way.
 * @param tell hears how far it has come
 */
export const waysToFree = (
  { problem, used, needed }: FreeingQuestion,
  tell: Tell = () => {},
): WayToFree[] => {
  const space = spaceOf(problem);
  if (!space) return [];
  const placed = problem.inputs - problem.reserved.length - space.free.length;
  const now = planLosses({ goes: goesNow(itemsOf(problem)) }, problem);
  const isNew = (loss: PlanLoss): boolean =>
    !now.some(({ code, channel }) => code === loss.code && channel === loss.channel);
  const seen = new Set<string>();
  return ASKED.flatMap(({ order, more }, at): WayToFree[] => {
    tell(at / ASKED.length);
    const left = used - needed - more - placed;
    if (left < 0) return [];
    const grouping = solve(problem, order, givesWay, left);
    const structure = grouping && structureOf(planFeeds(grouping, space));
    if (!grouping || structure === null || seen.has(structure)) return [];
    seen.add(structure);
    const plan = planOf(problem, "best", grouping, space);
    const loses = plan.losses.filter(isNew);
    // Nothing that must be goes for an input that is not needed.
    if (more > 0 && loses.some(({ code }) => MUSTS.includes(code))) return [];
    return [{ frees: used - (grouping.charges["input-used"] ?? 0), plan, loses }];
  });
};

/** The ways to free inputs, with the question that they answer. */
export interface FoundWays {
  readonly question: FreeingQuestion;
  readonly ways: readonly WayToFree[];
}

/** What has to go in a setup that the rest fits; null where everything has room. */
export const findWaysToFree = (setup: Setup, pins: HandPins, tell: Tell = () => {}): FoundWays | null => {
  const question = freeingQuestion(setup, pins);
  return question && { question, ways: waysToFree(question, tell) };
};
