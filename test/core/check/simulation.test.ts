import { describe, expect, it } from "vitest";
import type { LawId } from "../../../src/core/setup";
import { KITS } from "./kits";
import { asAsked, boundOf, checkWith, frontToBack, type Order, seeded, shuffled, simulate } from "./simulate";

const LAWS: readonly LawId[] = ["sine", "root", "linear"];
const CASES = LAWS.flatMap((law) =>
  Object.keys(KITS).map((microphones) => [law, Number(microphones)] as const),
);
const checks = CASES.map(([law, microphones]) => checkWith(microphones, law));

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** The larger version of this, with its table: `node test/bench/check.mjs`. */
describe("simulated checks, every fault as often as every other", { timeout: 60_000 }, () => {
  it("find the right fault in at least 97 % with one slip in twenty, within 1.5 × the bound", () => {
    const random = seeded(20);
    const tallies = checks.map((check) => simulate(check, 0.05, 5, random, () => asAsked));
    const sessions = tallies.reduce((sum, t) => sum + t.sessions, 0);
    const right = tallies.reduce((sum, t) => sum + t.right, 0);
    expect(right / sessions).toBeGreaterThanOrEqual(0.97);
    expect(mean(tallies.map((t) => t.hits))).toBeLessThanOrEqual(1.5 * mean(checks.map(boundOf)));
    // A fault of the list is almost never called unknown.
    expect(tallies.reduce((sum, t) => sum + t.unknown, 0) / sessions).toBeLessThan(0.005);
  });

  it("find the right fault always without slips", () => {
    const random = seeded(21);
    for (const check of checks) {
      const { right, sessions } = simulate(check, 0, 3, random, () => asAsked);
      expect(right).toBe(sessions);
    }
  });

  it("need clearly fewer hits than any order in which nobody thinks", () => {
    const random = seeded(22);
    const hits = (order: () => Order) =>
      mean(checks.map((check) => simulate(check, 0.05, 2, random, order).hits));
    const asked = hits(() => asAsked);
    expect(asked).toBeLessThan(0.8 * hits(() => shuffled(random)));
    expect(asked).toBeLessThan(0.8 * hits(() => frontToBack));
  });
});
