import type { Tell } from "../lib/tell";
import type { Id } from "../model/setup";
import { type Contradiction, contradictionOf } from "./contradict";
import {
  type Change,
  changesOf,
  type MusicianView,
  type PlanLoss,
  planLosses,
  planViews,
  structureOf,
} from "./explain";
import { type GroupedFeed, planFeeds } from "./feeds";
import type { Charges } from "./losses";
import type { AllocationProblem, BusOf, Width } from "./model";
import { placeFeeds, unusualPairs } from "./place";
import { type Grouping, solve } from "./solve";
import { inputsFrom, type Space, spaceOf } from "./space";
import { ORDERS, type PlanStyle, withSpare } from "./styles";

/** One block of the patch. */
export interface PlanFeed {
  /** From 1: one input, or an odd one and the next. */
  readonly inputs: readonly number[];
  readonly width: Width;
  /** Null for a channel alone. */
  readonly bus: BusOf | null;
  readonly isSwapped: boolean;
  readonly channels: readonly Id[];
}

/** A whole allocation. */
export interface AllocationPlan {
  readonly style: PlanStyle;
  /** By input. */
  readonly feeds: readonly PlanFeed[];
  readonly leftOut: readonly Id[];
  /** What channels lose, worst first; everything that is left out is named. */
  readonly losses: readonly PlanLoss[];
  readonly charges: Charges;
  /** Feeds that are now elsewhere than they could be found. */
  readonly moved: number;
  /** Pairs of feeds in other than the conventional order. */
  readonly unusual: number;
  /** Inputs that nothing uses, reserved ones aside. */
  readonly inputsLeft: readonly number[];
  readonly changes: readonly Change[];
  readonly musicians: readonly MusicianView[];
}

/** Plans to choose from, the cheapest first, and what cannot be had together. */
export interface Allocation {
  /** Empty where what is pinned is impossible. */
  readonly plans: readonly AllocationPlan[];
  /** The smallest set of pins and rules that cannot all be kept; null where all of them are. */
  readonly contradiction: Contradiction | null;
}

/** A grouping on its inputs, with what it loses and changes. */
export const planOf = (
  problem: AllocationProblem,
  style: PlanStyle,
  grouping: Grouping,
  space: Space,
): AllocationPlan => {
  const feeds = planFeeds(grouping, space);
  const placed = placeFeeds(feeds, space);
  const used = new Set(placed.flatMap(({ feed, input }) => inputsFrom(input, feed.width)));
  return {
    style,
    feeds: placed.map(({ feed, input }) => ({
      inputs: inputsFrom(input, feed.width),
      width: feed.width,
      bus: feed.bus,
      isSwapped: feed.bus !== null && feed.width === 2 && problem.swapped.includes(feed.bus.id),
      channels: feed.items.map((item) => item.channel.id),
    })),
    leftOut: grouping.goes.flatMap(({ item, where }) => (where.as === "out" ? [item.channel.id] : [])),
    losses: planLosses(grouping, problem),
    charges: grouping.charges,
    moved: placed.filter(({ feed, input }) => feed.now !== null && feed.now !== input).length,
    unusual: unusualPairs(feeds, placed),
    inputsLeft: space.free.filter((n) => !used.has(n)),
    changes: changesOf(grouping, placed),
    musicians: planViews(problem, grouping, placed),
  };
};

/** The best plan under the table; null where what is pinned is impossible. */
export const bestPlan = (problem: AllocationProblem): AllocationPlan | null => {
  const [space, grouping] = [spaceOf(problem), solve(problem)];
  return space && grouping ? planOf(problem, "best", grouping, space) : null;
};

const MOST = 3;

/**
 * Up to three plans that differ in who shares with whom, not in numbers only. The first is the cheapest under the table;
 * each other one is the cheapest under the same losses with one of them taken more seriously, or with fewer inputs. Fewer
 * than three where these come to the same.
 * @param tell hears how far it has come
 */
export const allocate = (problem: AllocationProblem, tell: Tell = () => {}): Allocation => {
  const [space, best] = [spaceOf(problem), solve(problem)];
  if (!space || !best) return { plans: [], contradiction: contradictionOf(problem) };
  const heardNow = problem.channels.some((c) => c.currentInputs.length > 0);
  const styles: PlanStyle[] = [
    "best",
    ...(heardNow ? (["as-now"] as const) : []),
    "stereo",
    "spare",
    "apart",
    "fewest",
  ];
  const plans: AllocationPlan[] = [];
  const seen = new Set<string>();
  for (const [at, style] of styles.entries()) {
    tell((at + 1) / (styles.length + 1));
    if (plans.length === MOST) break;
    const grouping =
      style === "best"
        ? best
        : style === "spare"
          ? withSpare(problem, best, space)
          : solve(problem, ORDERS[style]);
    if (!grouping) continue;
    const feeds: GroupedFeed[] = planFeeds(grouping, space);
    const structure = structureOf(feeds);
    if (seen.has(structure)) continue;
    seen.add(structure);
    plans.push(planOf(problem, style, grouping, space));
  }
  return { plans, contradiction: contradictionOf(problem) };
};
