import { expect, it } from "vitest";
import { repairsFor } from "../../../src/core/repair/repairs";
import { situationOf, talliesOfOthers } from "../../../src/core/repair/situation";
import type { Setup, Sum } from "../../../src/core/setup";
import { AUDIENCE, DRUMMER, kit, listener, SUM, source, withSource } from "./setups";

const ranked = (setup: Setup) => repairsFor(situationOf(setup, setup.sums[0] as Sum)).ranked;

it("where the audience matters most, sources are re-panned for the drummer, wherever in the list", () => {
  const keys = source("keys", { channels: 2, keepSides: true });
  const ines = listener("ines", { facing: 180 });
  const setup: Setup = {
    ...withSource(kit(), keys),
    wishes: { ...kit().wishes, first: "audience" },
    listeners: [AUDIENCE, ines, listener("theo"), DRUMMER],
  };
  const repan = ranked(setup).find((r) => r.id === "sum, ines:flip");
  expect(repan?.steps.flatMap((s) => (s.step === "pan" ? [s.source] : []))).toEqual([
    "hat",
    "tom",
    "floor",
    "ride",
  ]);
});

it("what others get is worked out for each set of house pans, even where ids run together", () => {
  const sources = ["a", "b", "a b"].map((id) => source(id, { piece: "hat", pan: 0.7 }));
  const setup = kit({
    sources,
    sums: [{ ...SUM, sends: sources.map((s) => ({ source: s.id, level: -6, pan: null })) }],
  });
  const situation = situationOf(setup, setup.sums[0] as Sum);
  const wrong = (house: readonly boolean[]): number[] =>
    talliesOfOthers(situation, house).map((tally) => tally.wrong);
  // The hat stands to the right of the audience.
  expect(wrong([true, true, false])).toEqual([2]);
  expect(wrong([false, false, true])).toEqual([1]);
});
