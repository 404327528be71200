import { describe, expect, it } from "vitest";
import { applyPlan } from "../../src/core/allocate/apply";
import { freeingQuestion, waysToFree } from "../../src/core/allocate/free";
import { problemOf } from "../../src/core/allocate/problem";
import { decide } from "../../src/core/check/decide";
import type { Bus, Hit, Listener } from "../../src/core/model/setup";
import { reasonsFor } from "../../src/core/recommend/reasons";
import { recommend, recommendationsOf } from "../../src/core/recommend/recommend";
import { SEARCHES } from "../../src/core/searches";
import { allocationSetup, checkedSetup, imageSetup, patchSetup } from "../bench/setups";
import { setupWith } from "./check/kits";

/** What arrives of something that is sent from one thread to another. */
const sent = <T>(it: T): T => structuredClone(it);

/** How far a search said it was, each time. */
const listening = () => {
  const shares: number[] = [];
  return { shares, tell: (share: number) => void shares.push(share) };
};
const expectRising = (shares: readonly number[]): void => {
  expect(shares.length).toBeGreaterThan(3);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(shares[0]).toBeGreaterThanOrEqual(0);
  expect(shares.at(-1)).toBeLessThan(1);
};

describe("run on another thread", () => {
  it("a recommendation is the same", () => {
    const setup = imageSetup(24, 6, "a bus each");
    const bus = setup.buses[0] as Bus;
    const found = sent(SEARCHES.recommendation(sent({ setup, bus: bus.id }), () => {}));
    if (!found) throw new Error("nothing");
    const here = recommend(setup, bus);
    const there = recommendationsOf(setup, bus, found);
    expect(found.reasons).toEqual(reasonsFor(setup, bus, here));
    expect(here.length).toBeGreaterThan(2);
    expect(there.map(({ id }) => id)).toEqual(here.map(({ id }) => id));
    expect(there.map((r) => [r.steps, r.outcomes, r.notes, r.criteria, r.parts, r.foh])).toEqual(
      here.map((r) => [r.steps, r.outcomes, r.notes, r.criteria, r.parts, r.foh]),
    );
    expect(SEARCHES.recommendation({ setup, bus: "none" }, () => {})).toBeNull();
  });

  it("ways to free inputs are the same, and tell how far they have come", () => {
    const setup = patchSetup(24, { inputCount: 16, buses: 2, alike: false });
    const pins = { channels: new Map(), buses: [] };
    const question = freeingQuestion(setup, pins);
    if (!question) throw new Error("nothing is over");
    const { shares, tell } = listening();
    const here = waysToFree(question);
    expect(here.length).toBeGreaterThan(2);
    expect(sent(SEARCHES.ways(sent({ setup, pins }), tell))).toEqual({ question, ways: here });
    expectRising(shares);
  });

  it("plans are the same, are applied the same, and tell how far they have come", () => {
    const setup = allocationSetup(20, 16);
    const problem = problemOf(setup, { channels: new Map(), buses: [] });
    const { shares, tell } = listening();
    const here = SEARCHES.plans({ problem }, () => {});
    const there = sent(SEARCHES.plans(sent({ problem }), tell));
    expect(there).toEqual(here);
    expectRising(shares);
    const [plan, same] = [here.plans[1], there.plans[1]];
    if (!plan || !same) throw new Error("one plan only");
    const name = (): string => "Bus";
    expect(applyPlan(setup, problem, same, name)).toEqual(applyPlan(setup, problem, plan, name));
  });

  it("what else there could be of a plan is the same, and tells how far it has come", () => {
    const problem = problemOf(allocationSetup(20, 16), { channels: new Map(), buses: [] });
    const [plan] = SEARCHES.plans({ problem }, () => {}).plans;
    if (!plan) throw new Error("no plan");
    const { shares, tell } = listening();
    const here = SEARCHES["plans otherwise"]({ problem, plan }, () => {});
    expect(sent(SEARCHES["plans otherwise"](sent({ problem, plan }), tell))).toEqual(here);
    expectRising(shares);
  });

  it("a check asks and finds the same, and tells how far it has come", () => {
    const setup = setupWith(8, "sine");
    const listener = setup.listeners[0] as Listener;
    const { shares, tell } = listening();
    const here = SEARCHES.check({ setup, listener }, () => {});
    const there = sent(SEARCHES.check(sent({ setup, listener }), tell));
    expectRising(shares);
    const hits: Hit[] = [];
    for (;;) {
      const decision = decide(here, hits);
      expect(decide(there, hits)).toEqual(decision);
      if (decision.kind !== "asking") break;
      const { piece, action } = decision.next;
      hits.push({ piece, answer: "left", ...(action ? { action } : {}) });
    }
    expect(hits.length).toBeGreaterThan(2);
  });

  it("a large check keeps one list for what is heard alike", () => {
    const { setup, listener } = checkedSetup(64, 32, 4);
    const here = SEARCHES.check({ setup, listener }, () => {});
    for (const check of [here, sent(here)]) {
      const ids = new Map<unknown, number>();
      const idOf = (it: unknown): number => {
        if (!ids.has(it)) ids.set(it, ids.size);
        return ids.get(it) as number;
      };
      const lists = new Set(check.candidates.flatMap(({ chances }) => chances));
      const contents = new Set([...lists].map((list) => list.map(idOf).join()));
      expect(lists.size).toBeGreaterThan(100);
      expect(lists.size).toBe(contents.size);
    }
  });
});
