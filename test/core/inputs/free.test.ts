import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import { arePair } from "../../../src/core/inputs/arrange";
import { choicesOf } from "../../../src/core/inputs/choices";
import { COSTS } from "../../../src/core/inputs/costs";
import { applyWay, type WayToFree, waysToFree } from "../../../src/core/inputs/free";
import { usageOf } from "../../../src/core/inputs/usage";
import type { MonitorInput, Setup } from "../../../src/core/model/setup";
import { exampleSetup } from "../../../src/document/example";
import { mend } from "../../../src/document/mend";
import { bruteForce } from "./brute";
import { anySetup, bus, channel, direct, setup, side } from "./setups";

const pairsOf = (inputs: readonly (MonitorInput | null)[]): number =>
  inputs.filter((input, i) => arePair(input, inputs[i + 1])).length;

const cheapestOf = (s: Setup): WayToFree => waysToFree(s)[0] as WayToFree;

describe("ways to free inputs", () => {
  it("are as cheap as trying everything finds, on any setup", () => {
    let met = 0;
    fc.assert(
      fc.property(anySetup(5, 9), (s) => {
        const { tooMany } = usageOf(s);
        const options = choicesOf(s);
        fc.pre(tooMany > 0 && options.reduce((n, o) => n * (o.choices.length + 2), 1) < 20_000);
        met += 1;
        const costs = bruteForce(options, tooMany, COSTS.newSum, 5);
        expect(waysToFree(s).map((f) => f.cost)).toEqual(costs);
      }),
      { numRuns: 150 },
    );
    expect(met).toBeGreaterThan(50);
  });

  it("really lead under it, free what they say and drop nothing else", () => {
    fc.assert(
      fc.property(anySetup(8, 16), (s) => {
        const before = usageOf(s);
        for (const fit of waysToFree(s)) {
          const after = applyWay(s, fit);
          const now = usageOf(after);
          expect(now.over).toEqual([]);
          expect(now.used.length).toBeLessThanOrEqual(s.monitor.inputCount);
          expect(before.used.length - now.used.length).toBe(fit.frees);
          expect(fit.loses.length > 0).toBe(fit.moves.length > 0);
          const touched = new Set(fit.moves.flatMap((m) => m.inputs));
          for (const i of before.used) {
            if (!touched.has(i)) expect(after.monitor.inputs).toContain(s.monitor.inputs[i]);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it("keep neighbours of a pair together", () => {
    fc.assert(
      fc.property(anySetup(8, 16), (s) => {
        for (const fit of waysToFree(s)) {
          const touched = new Set(fit.moves.flatMap((m) => m.inputs));
          const inputs = s.monitor.inputs.map((input, i) => (touched.has(i) ? null : input));
          // A pair across the last input is no block of what lies beyond; it may be torn.
          const across = arePair(inputs[s.monitor.inputCount - 1], inputs[s.monitor.inputCount]) ? 1 : 0;
          expect(pairsOf(applyWay(s, fit).monitor.inputs)).toBeGreaterThanOrEqual(pairsOf(inputs) - across);
        }
      }),
    );
  });

  it("are none when nothing is over, and only a move when there is room", () => {
    const s = setup([channel("a"), channel("b")], [], [direct("a"), null, direct("b")], 2);
    expect(waysToFree({ ...s, monitor: { ...s.monitor, inputCount: 3 } })).toEqual([]);
    const [only, ...others] = waysToFree(s);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ cost: 0, moves: [], frees: 0 });
    expect(applyWay(s, only as WayToFree).monitor.inputs).toEqual([direct("a"), direct("b")]);
  });

  it("place a pair before single feeds, so that nothing else has to move", () => {
    const s = setup(
      [channel("a"), channel("b"), channel("k", { lines: 2 })],
      [],
      [null, null, direct("a"), null, direct("b"), direct("k", "left"), direct("k", "right")],
      4,
    );
    expect(applyWay(s, cheapestOf(s)).monitor.inputs).toEqual([
      direct("k", "left"),
      direct("k", "right"),
      direct("a"),
      direct("b"),
    ]);
  });

  it("free a copy first: nothing is lost", () => {
    const s = setup([channel("a"), channel("b")], [], [direct("a"), direct("b"), direct("a")], 2);
    expect(cheapestOf(s).moves).toEqual([{ move: "free", why: "copy", of: "channel", id: "a", inputs: [2] }]);
    expect(cheapestOf(s).loses).toEqual([{ loss: "freed", why: "copy", of: "channel", id: "a" }]);
  });

  it("free the spare side of a folded sum before anything that is heard", () => {
    const s = setup(
      [channel("a"), channel("b")],
      [bus("m1", ["a"], { folded: true })],
      [side("m1", "left"), side("m1", "right"), direct("b")],
      2,
    );
    expect(cheapestOf(s).moves).toMatchObject([{ move: "free", why: "copy", of: "bus", inputs: [1] }]);
  });

  it("take a channel that is in a bus already before they fold or sum others", () => {
    const s = setup(
      [channel("Kick", { kind: "drum" }), channel("Keys", { kind: "keys", lines: 2 })],
      [bus("Drums", ["Kick"])],
      [
        side("Drums", "left"),
        side("Drums", "right"),
        direct("Kick"),
        direct("Keys", "left"),
        direct("Keys", "right"),
      ],
      4,
    );
    expect(cheapestOf(s)).toMatchObject({
      moves: [{ move: "free", why: "twice", of: "channel", id: "Kick", inputs: [2] }],
      loses: [{ loss: "freed", why: "twice", of: "channel", id: "Kick" }],
    });
    for (const id of ["Keys", "Drums"])
      expect(waysToFree(s).map((f) => f.moves)).toContainEqual([
        expect.objectContaining({ move: "fold", id }),
      ]);
  });

  it("sum those of one kind and say what it costs: four of equal peak need the likely peak's 6.02 dB", () => {
    const names = ["a", "b", "c", "d"];
    const s = setup(
      names.map((id) => channel(id, { kind: "horn" })),
      [],
      names.map((id) => direct(id)),
      1,
    );
    const fit = cheapestOf(s);
    expect(fit.moves).toEqual([{ move: "together", channels: names, inputs: [0, 1, 2, 3] }]);
    const after = applyWay(s, fit);
    const [made] = after.buses;
    expect(made).toMatchObject({ name: "Horns", stereo: false });
    expect(after.monitor.inputs).toEqual([side(made?.id ?? "", "left")]);
    // Loudest at 1 and the root of three squares of 1: 1 + √3 = 8.73 dB; against the loudest alone.
    const figures = made && busFigures(after, made);
    expect((figures?.sides[0].likely ?? 0) - (figures?.alone ?? 0)).toBeCloseTo(
      20 * Math.log10(1 + Math.sqrt(3)),
      9,
    );
    expect(fit.loses).toEqual([
      { loss: "apart", channels: names, from: null },
      { loss: "headroom", by: expect.closeTo(20 * Math.log10(1 + Math.sqrt(3)), 9), known: true },
    ]);
  });

  // The working figure, as on the Bus screen: levels of two equal signals add up by 3.01 dB, their peaks may by 6.02.
  it("say what equal peaks would need where peaks are not known: the likely peak's figure, trims counted", () => {
    const asked = (kinds: readonly string[], trim: number) => {
      const s = setup(
        kinds.map((id) => channel(id, { kind: "vocal", peak: null })),
        [],
        kinds.map((id, i) => direct(id, "both", { trim: i === 0 ? 0 : trim })),
        1,
      );
      return (waysToFree(s).find((f) => f.moves[0]?.move === "together") as WayToFree).loses[1];
    };
    const headroom = (ratio: number) => ({
      loss: "headroom",
      by: expect.closeTo(20 * Math.log10(ratio), 9),
      known: false,
    });
    expect(asked(["a", "b"], 0)).toEqual(headroom(2));
    expect(asked(["a", "b", "c", "d"], 0)).toEqual(headroom(1 + Math.sqrt(3)));
    expect(asked(["a", "b"], -3)).toEqual(headroom(1 + 10 ** (-3 / 20)));
  });

  it("take the trims of the inputs along into the sends", () => {
    const s = setup(
      ["a", "b"].map((id) => channel(id, { kind: "vocal", peak: null })),
      [],
      [direct("a"), direct("b", "both", { trim: -3 })],
      1,
    );
    const fit = waysToFree(s).find((f) => f.moves[0]?.move === "together") as WayToFree;
    expect(applyWay(s, fit).buses[0]?.sends.map((x) => x.level)).toEqual([0, -3]);
  });

  it("tell which images collapse when a pair is folded, and the +3.01 dB of the middle in a plain fold", () => {
    const s = setup(
      [channel("Kick", { kind: "drum" }), channel("Hat", { kind: "drum", pan: 1 })],
      [bus("Drums", ["Kick", "Hat"])],
      [side("Drums", "left"), side("Drums", "right")],
      1,
    );
    const fit = cheapestOf(s);
    expect(fit.moves).toMatchObject([{ move: "fold", of: "bus", id: "Drums", keeps: 0 }]);
    expect(fit.loses.slice(0, 2)).toEqual([
      { loss: "bus to mono", bus: "Drums", aside: ["Hat"] },
      {
        loss: "balance",
        fold: "sides",
        up: { channel: "Kick", against: "Hat", by: expect.closeTo(10 * Math.log10(2), 9) },
        gone: [],
      },
    ]);
    expect(applyWay(s, fit).buses[0]).toMatchObject({ stereo: false });
  });

  it("leave a setup whole in itself", () => {
    const example = exampleSetup();
    const over = { ...example, monitor: { ...example.monitor, inputCount: 9 } };
    for (const fit of waysToFree(over)) {
      const after = { ...over, ...applyWay(over, fit) };
      const notes: string[] = [];
      mend(after, (says) => notes.push(says));
      expect(notes).toEqual([]);
    }
  });

  it("are found for forty feeds", () => {
    const kinds = ["vocal", "horn", "guitar", "drum", "keys"] as const;
    const channels = Array.from({ length: 26 }, (_, i) =>
      channel(`s${i}`, { kind: kinds[i % 5] ?? "other", lines: i % 2 === 0 ? 1 : 2 }),
    );
    const inputs = channels.flatMap((s) =>
      s.lines === 1 ? [direct(s.id)] : [direct(s.id, "left"), direct(s.id, "right")],
    );
    const s = setup(channels, [bus("m1", [])], [...inputs, side("m1", "left"), side("m1", "right")], 16);
    expect(inputs.length).toBeGreaterThanOrEqual(39);
    expect(waysToFree(s)).toHaveLength(5);
  });
});
