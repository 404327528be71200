import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { choicesOf } from "../../../src/core/patch/choices";
import { COSTS } from "../../../src/core/patch/costs";
import { applyFit, type Fit, fits } from "../../../src/core/patch/fit";
import { arePair } from "../../../src/core/patch/place";
import { usageOf } from "../../../src/core/patch/usage";
import type { Setup, Slot } from "../../../src/core/setup";
import { sumFigures } from "../../../src/core/sum/figures";
import { exampleSetup } from "../../../src/document/example";
import { mend } from "../../../src/document/mend";
import { bruteForce } from "./brute";
import { anySetup, direct, leg, setup, source, sum } from "./setups";

const pairsOf = (slots: readonly (Slot | null)[]): number =>
  slots.filter((slot, i) => arePair(slot, slots[i + 1])).length;

const cheapestOf = (s: Setup): Fit => fits(s)[0] as Fit;

describe("ways back under the count", () => {
  it("are as cheap as trying everything finds, on any setup", () => {
    let met = 0;
    fc.assert(
      fc.property(anySetup(5, 9), (s) => {
        const { tooMany } = usageOf(s);
        const options = choicesOf(s);
        fc.pre(tooMany > 0 && options.reduce((n, o) => n * (o.choices.length + 2), 1) < 20_000);
        met += 1;
        const costs = bruteForce(options, tooMany, COSTS.newSum, 5);
        expect(fits(s).map((f) => f.cost)).toEqual(costs);
      }),
      { numRuns: 150 },
    );
    expect(met).toBeGreaterThan(50);
  });

  it("really lead under it, free what they say and drop nothing else", () => {
    fc.assert(
      fc.property(anySetup(8, 16), (s) => {
        const before = usageOf(s);
        for (const fit of fits(s)) {
          const after = applyFit(s, fit);
          const now = usageOf(after);
          expect(now.over).toEqual([]);
          expect(now.used.length).toBeLessThanOrEqual(s.monitor.slotCount);
          expect(before.used.length - now.used.length).toBe(fit.frees);
          expect(fit.loses.length).toBeGreaterThan(0);
          const touched = new Set(fit.moves.flatMap((m) => m.slots));
          for (const i of before.used) {
            if (!touched.has(i)) expect(after.monitor.slots).toContain(s.monitor.slots[i]);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it("keep neighbours of a pair together", () => {
    fc.assert(
      fc.property(anySetup(8, 16), (s) => {
        for (const fit of fits(s)) {
          const touched = new Set(fit.moves.flatMap((m) => m.slots));
          const slots = s.monitor.slots.map((slot, i) => (touched.has(i) ? null : slot));
          // A pair across the last slot is no block of what lies beyond; it may be torn.
          const across = arePair(slots[s.monitor.slotCount - 1], slots[s.monitor.slotCount]) ? 1 : 0;
          expect(pairsOf(applyFit(s, fit).monitor.slots)).toBeGreaterThanOrEqual(pairsOf(slots) - across);
        }
      }),
    );
  });

  it("are none when nothing is over, and only a move when there is room", () => {
    const s = setup([source("a"), source("b")], [], [direct("a"), null, direct("b")], 2);
    expect(fits({ ...s, monitor: { ...s.monitor, slotCount: 3 } })).toEqual([]);
    const [only, ...others] = fits(s);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ cost: 0, moves: [], frees: 0 });
    expect(applyFit(s, only as Fit).monitor.slots).toEqual([direct("a"), direct("b")]);
  });

  it("place a pair before single feeds, so that nothing else has to move", () => {
    const s = setup(
      [source("a"), source("b"), source("k", { channels: 2 })],
      [],
      [null, null, direct("a"), null, direct("b"), direct("k", "left"), direct("k", "right")],
      4,
    );
    expect(applyFit(s, cheapestOf(s)).monitor.slots).toEqual([
      direct("k", "left"),
      direct("k", "right"),
      direct("a"),
      direct("b"),
    ]);
  });

  it("free a copy first: nothing is lost", () => {
    const s = setup([source("a"), source("b")], [], [direct("a"), direct("b"), direct("a")], 2);
    expect(cheapestOf(s).moves).toEqual([{ move: "free", why: "copy", of: "source", id: "a", slots: [2] }]);
    expect(cheapestOf(s).loses).toEqual(["Nothing is lost: the same still comes in."]);
  });

  it("free the spare leg of a folded sum before anything that is heard", () => {
    const s = setup(
      [source("a"), source("b")],
      [sum("m1", ["a"], { folded: true })],
      [leg("m1", "left"), leg("m1", "right"), direct("b")],
      2,
    );
    expect(cheapestOf(s).moves).toMatchObject([{ move: "free", why: "copy", of: "sum", slots: [1] }]);
  });

  it("take a source that is in a sum already before they fold or sum others", () => {
    const s = setup(
      [source("Kick", { kind: "drum" }), source("Keys", { kind: "keys", channels: 2 })],
      [sum("Drums", ["Kick"])],
      [
        leg("Drums", "left"),
        leg("Drums", "right"),
        direct("Kick"),
        direct("Keys", "left"),
        direct("Keys", "right"),
      ],
      4,
    );
    expect(cheapestOf(s)).toMatchObject({
      says: "Free slot 3 (Kick).",
      loses: ["Kick is still heard in the sum, but nobody can turn it up alone."],
    });
    expect(fits(s).map((f) => f.says)).toContain("Fold Keys to mono.");
    expect(fits(s).map((f) => f.says)).toContain("Fold Drums to mono.");
  });

  it("sum those of one kind and say what it costs: four of equal peak need the likely peak's 6.02 dB", () => {
    const names = ["a", "b", "c", "d"];
    const s = setup(
      names.map((id) => source(id, { kind: "horn" })),
      [],
      names.map((id) => direct(id)),
      1,
    );
    const fit = cheapestOf(s);
    expect(fit.moves).toEqual([{ move: "together", sources: names, slots: [0, 1, 2, 3] }]);
    const after = applyFit(s, fit);
    const [made] = after.sums;
    expect(made).toMatchObject({ name: "Horns", stereo: false });
    expect(after.monitor.slots).toEqual([leg(made?.id ?? "", "left")]);
    // Loudest at 1 and the root of three squares of 1: 1 + √3 = 8.73 dB; against the loudest alone.
    const figures = made && sumFigures(after, made);
    expect((figures?.legs[0].likely ?? 0) - (figures?.alone ?? 0)).toBeCloseTo(
      20 * Math.log10(1 + Math.sqrt(3)),
      9,
    );
    expect(fit.loses).toEqual([
      "a, b, c and d can no longer be mixed apart.",
      "The sum needs 8.73 dB of headroom over its loudest source.",
    ]);
  });

  // The working figure, as on the Sum screen: levels of two equal signals add up by 3.01 dB, their peaks may by 6.02.
  it("say what equal peaks would need where peaks are not known: the likely peak's figure, trims counted", () => {
    const asked = (kinds: readonly string[], trim: number) => {
      const s = setup(
        kinds.map((id) => source(id, { kind: "voice", peak: null })),
        [],
        kinds.map((id, i) => direct(id, "both", { trim: i === 0 ? 0 : trim })),
        1,
      );
      return (fits(s).find((f) => f.moves[0]?.move === "together") as Fit).loses[1];
    };
    expect(asked(["a", "b"], 0)).toBe(
      "Not all of their peaks are known; if these were alike, the sum would need 6.02 dB of headroom over its loudest source.",
    );
    expect(asked(["a", "b", "c", "d"], 0)).toContain(
      ` ${(20 * Math.log10(1 + Math.sqrt(3))).toFixed(2)} dB of headroom`,
    );
    expect(asked(["a", "b"], -3)).toContain(
      ` ${(20 * Math.log10(1 + 10 ** (-3 / 20))).toFixed(2)} dB of headroom`,
    );
  });

  it("take the trims of the slots along into the sends", () => {
    const s = setup(
      ["a", "b"].map((id) => source(id, { kind: "voice", peak: null })),
      [],
      [direct("a"), direct("b", "both", { trim: -3 })],
      1,
    );
    const fit = fits(s).find((f) => f.moves[0]?.move === "together") as Fit;
    expect(applyFit(s, fit).sums[0]?.sends.map((x) => x.level)).toEqual([0, -3]);
  });

  it("tell which images collapse when a pair is folded, and the +3.01 dB of the middle in a plain fold", () => {
    const s = setup(
      [source("Kick", { kind: "drum" }), source("Hat", { kind: "drum", pan: 1 })],
      [sum("Drums", ["Kick", "Hat"])],
      [leg("Drums", "left"), leg("Drums", "right")],
      1,
    );
    const fit = cheapestOf(s);
    expect(fit.moves).toMatchObject([{ move: "fold", of: "sum", id: "Drums", keeps: 0 }]);
    expect(fit.loses[0]).toBe("Drums goes to mono: 1 image collapses into the middle (Hat).");
    expect(fit.loses[1]).toBe(
      "If the console folds left + right instead, Kick comes up by 3.01 dB against Hat.",
    );
    expect(applyFit(s, fit).sums[0]).toMatchObject({ stereo: false });
  });

  it("leave a setup whole in itself", () => {
    const example = exampleSetup();
    const over = { ...example, monitor: { ...example.monitor, slotCount: 9 } };
    for (const fit of fits(over)) {
      const after = { ...over, ...applyFit(over, fit) };
      const notes: string[] = [];
      mend(after, (says) => notes.push(says));
      expect(notes).toEqual([]);
    }
  });

  it("are found for forty feeds", () => {
    const kinds = ["voice", "horn", "guitar", "drum", "keys"] as const;
    const sources = Array.from({ length: 26 }, (_, i) =>
      source(`s${i}`, { kind: kinds[i % 5] ?? "other", channels: i % 2 === 0 ? 1 : 2 }),
    );
    const slots = sources.flatMap((s) =>
      s.channels === 1 ? [direct(s.id)] : [direct(s.id, "left"), direct(s.id, "right")],
    );
    const s = setup(sources, [sum("m1", [])], [...slots, leg("m1", "left"), leg("m1", "right")], 16);
    expect(slots.length).toBeGreaterThanOrEqual(39);
    expect(fits(s)).toHaveLength(5);
  });
});
