import { findWaysToFree } from "./allocate/free";
import type { AllocationProblem } from "./allocate/model";
import { type AllocationPlan, allocate } from "./allocate/plans";
import type { HandPins } from "./allocate/problem";
import { whatIf } from "./allocate/whatif";
import { checkOf } from "./check/check";
import type { Tell } from "./lib/tell";
import type { Id, Listener, Setup } from "./model/setup";
import { findRecommendations } from "./recommend/recommend";

/**
 * The searches that take long on large setups, by name. What they are given and what they find is plain data, so that
 * they can be run off the page’s thread; `tell` hears how far they have come, where that is known.
 */
export const SEARCHES = {
  check: ({ setup, listener }: { setup: Setup; listener: Listener }, tell: Tell) =>
    checkOf(setup, listener, tell),
  ways: ({ setup, pins }: { setup: Setup; pins: HandPins }, tell: Tell) => findWaysToFree(setup, pins, tell),
  plans: ({ problem }: { problem: AllocationProblem }, tell: Tell) => allocate(problem, tell),
  "plans otherwise": ({ problem, plan }: { problem: AllocationProblem; plan: AllocationPlan }, tell: Tell) =>
    whatIf(problem, plan, tell),
  recommendation: ({ setup, bus }: { setup: Setup; bus: Id }, _: Tell) => {
    const its = setup.buses.find((s) => s.id === bus);
    return its ? findRecommendations(setup, its) : null;
  },
} as const;

/** Name of a search. */
export type SearchName = keyof typeof SEARCHES;
/** What a search is given. */
export type SearchInput<N extends SearchName> = Parameters<(typeof SEARCHES)[N]>[0];
/** What a search finds. */
export type SearchFound<N extends SearchName> = ReturnType<(typeof SEARCHES)[N]>;

/** A search to be run elsewhere. */
export type SearchTask = {
  [N in SearchName]: { readonly name: N; readonly input: SearchInput<N> };
}[SearchName];

/** What is heard of it: how far it has come, and at last what it found. */
export type SearchNews<N extends SearchName = SearchName> =
  | { readonly share: number }
  | { readonly found: SearchFound<N> };
