import { describe, expect, it } from "vitest";
import { cellOf, onStage, ownModel, sessions } from "./sessions";
import { seeded } from "./simulate";
import { PEOPLE_KINDS } from "./stage";

/** A small version of the bench, with its limits as far as so few sessions can hold them: `node test/bench/check.mjs`. */
const cells = [cellOf(4, "right", "sine"), cellOf(8, "left", "sine")];
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

describe.each([
  { name: "the engine’s own people", drummers: ownModel },
  ...PEOPLE_KINDS.map((kind) => ({ name: `a stage of its own, ${kind.name}`, drummers: onStage(kind) })),
])("checks with $name", ({ drummers }) => {
  const all = cells.flatMap((cell) => sessions(cell, drummers, 2, 10, seeded(20)));
  const faulty = all.filter((s) => s.fault !== "planned");
  const planned = all.filter((s) => s.fault === "planned");

  it("find the fault, in a handful of hits, and name few with it", () => {
    expect(mean(faulty.map((s) => Number(s.right)))).toBeGreaterThan(0.92);
    expect(mean(faulty.map((s) => s.hits))).toBeLessThan(7.5);
    expect(mean(faulty.map((s) => s.named))).toBeLessThanOrEqual(3);
  });

  it("name no fault where nothing is wrong", () => {
    expect(mean(planned.map((s) => Number(s.right)))).toBeGreaterThanOrEqual(0.9);
    expect(mean(planned.map((s) => s.hits))).toBeLessThan(12);
  });
});
