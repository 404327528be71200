import { describe, expect, it } from "vitest";
import { type Cell, smallKits, TUNED, templateCells } from "./cells";
import { reckon } from "./reckon";
import {
  asAsked,
  frontToBack,
  hears,
  hearsSurely,
  type Order,
  seeded,
  shuffled,
  simulate,
  strictBoundOf,
  yardstickOf,
} from "./simulate";

const SLIP = 0.05;
const cells = [...templateCells(TUNED), ...smallKits(TUNED)].map((cell) => ({
  ...cell,
  name: `${cell.law}, ${cell.kit}`,
}));
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** The larger version of this, with its table: `node test/bench/check.mjs`. */
describe.each(cells)("checks of $name", ({ check }) => {
  it("find the right fault in at least 97 % with one slip in twenty, within 1.5 × the yardstick", () => {
    const { right, hits, weighted, unknown } = reckon(check, SLIP, seeded(20), 4e-3);
    expect(right).toBeGreaterThanOrEqual(0.97);
    expect(hits).toBeLessThanOrEqual(1.5 * yardstickOf(check));
    expect(weighted).toBeLessThanOrEqual(1.5 * yardstickOf(check));
    // No way of asking can do better than this.
    expect(weighted).toBeGreaterThan(strictBoundOf(check, SLIP));
    // A fault of the list is almost never called unknown.
    expect(unknown).toBeLessThan(0.005);
  });

  it("find the right fault always without slips, where every piece is called what most call it", () => {
    const { right, sessions } = simulate(
      check,
      (fault) => hearsSurely(check, fault),
      1,
      () => asAsked,
    );
    expect(right).toBe(sessions);
  });

  it("without slips, miss at most one in a thousand by what lies between two places", () => {
    expect(reckon(check, 0, seeded(21), 1e-5).right).toBeGreaterThanOrEqual(0.999);
  });
});

describe("checks", () => {
  it("of as many pieces as the kit has: four where it has four, all of them where only overheads hear them", () => {
    const strikes = (kit: string) => {
      const { check, setup } = cells.find((c) => c.kit === kit) as Cell;
      return check.strikes.map((s) => setup.kit.pieces.find((p) => p.id === s.piece)?.name);
    };
    const whole = ["Kick", "Snare", "Hat", "Tom 1", "Tom 2", "Floor tom", "Ride", "Crash"];
    expect(strikes("four pieces").sort()).toEqual(["Hat", "Kick", "Ride", "Snare"]);
    expect(strikes("no floor tom, 3 mics").sort()).toEqual(whole.filter((n) => n !== "Floor tom").sort());
    for (const count of [3, 4])
      for (const hand of ["right", "left", "open"])
        expect(strikes(`${count} mics, ${hand}-handed`).sort()).toEqual([...whole].sort());
  });

  it("tell a reversed pair from as planned, whatever the template, the hand and the law", () => {
    for (const { check, name } of cells) {
      const kinds = check.sets.map((s) => s.faults.map((f) => f.kind));
      const planned = kinds.find((set) => set.includes("planned"));
      expect(planned, name).not.toContain("reversed");
    }
  });

  it("need clearly fewer hits than any order in which nobody thinks", () => {
    const random = seeded(22);
    const hits = (order: () => Order) =>
      mean(
        cells.map(
          ({ check }) => simulate(check, (fault) => hears(check, fault, SLIP, random), 1, order).hits,
        ),
      );
    const asked = hits(() => asAsked);
    expect(asked).toBeLessThan(0.8 * hits(() => shuffled(random)));
    expect(asked).toBeLessThan(0.8 * hits(() => frontToBack));
  });
});

describe("reckoning of every sequence", () => {
  it("gives what playing by chance gives, and hardly depends on its floor", () => {
    const [, , eight] = cells;
    if (!eight) throw new Error("no cell");
    const { check } = eight;
    const random = seeded(23);
    const played = simulate(
      check,
      (fault) => hears(check, fault, SLIP, random),
      100,
      () => asAsked,
    );
    for (const floor of [1e-2, 1e-3]) {
      const reckoned = reckon(check, SLIP, seeded(24), floor);
      // Three standard errors of 2500 sessions.
      expect(Math.abs(played.right / played.sessions - reckoned.right)).toBeLessThan(0.01);
      expect(Math.abs(played.hits - reckoned.hits)).toBeLessThan(0.12);
      expect(Math.abs(played.weighted - reckoned.weighted)).toBeLessThan(0.12);
    }
  });
});
