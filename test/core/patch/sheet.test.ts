import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sheetRows } from "../../../src/core/patch/sheet";
import { firstFree, usageOf } from "../../../src/core/patch/usage";
import { exampleSetup } from "../../../src/document/example";
import { anySetup, direct, leg, setup, source, sum } from "./setups";

describe("usage", () => {
  const s = setup(
    [source("a"), source("b"), source("c")],
    [sum("m1", ["a"]), sum("m2", ["a"], { stereo: false })],
    [leg("m1", "left"), null, direct("b"), null, null, direct("b")],
    4,
  );

  it("tells what is used, free, over and without a slot", () => {
    expect(usageOf(s)).toEqual({
      used: [0, 2, 5],
      over: [5],
      free: [1, 3],
      tooMany: 0,
      sourcesWithout: ["a", "c"],
      legsWithout: [
        { sum: "m1", leg: "right" },
        { sum: "m2", leg: "left" },
      ],
    });
    expect(usageOf({ ...s, monitor: { ...s.monitor, slotCount: 2 } }).tooMany).toBe(1);
  });

  it("finds the first free neighbours within the count", () => {
    expect(firstFree(s.monitor, 1)).toEqual([1]);
    expect(firstFree(s.monitor, 2)).toBeNull();
    expect(firstFree({ ...s.monitor, slotCount: 8 }, 2)).toEqual([3, 4]);
  });

  it("counts slots that the list does not reach as free", () => {
    expect(usageOf(setup([], [], [], 3)).free).toEqual([0, 1, 2]);
  });
});

describe("the patch sheet", () => {
  it("of the example has sixteen lines with names, origins and what is off", () => {
    const rows = sheetRows(exampleSetup());
    expect(rows).toHaveLength(16);
    expect(rows.map((r) => r.name).slice(0, 6)).toEqual([
      "Drums L",
      "Drums R",
      "Bass",
      "Guitar",
      "Keys L",
      "Keys R",
    ]);
    expect(rows.map((r) => r.from).slice(0, 5)).toEqual([
      "Drums, left leg",
      "Drums, right leg",
      "Bass, direct",
      "Guitar, direct",
      "Keys, left channel",
    ]);
    expect(rows[10]).toMatchObject({ slot: 11, name: "Backing voice 2", on: false, tap: "Before fader" });
    expect(rows[15]).toEqual({
      slot: 16,
      over: false,
      name: "",
      part: "",
      from: "",
      tap: "",
      on: null,
      trim: null,
      swapped: "",
    });
  });

  it("marks swapped pairs, meant or not", () => {
    const slots = [leg("m1", "right"), leg("m1", "left"), direct("k", "right"), direct("k", "left")];
    const sources = [source("a"), source("k", { channels: 2 })];
    const swapped = (reversed: boolean) =>
      sheetRows(setup(sources, [sum("m1", ["a"], { reversed })], slots, 4)).map((r) => r.swapped);
    expect(swapped(true)).toEqual(["on purpose", "on purpose", "by mistake", "by mistake"]);
    expect(swapped(false)).toEqual(["by mistake", "by mistake", "by mistake", "by mistake"]);
  });

  it("says mono sums, both channels in one slot, and what is over the count", () => {
    const s = setup(
      [source("a"), source("k", { channels: 2 })],
      [sum("m1", ["a"], { stereo: false })],
      [leg("m1", "left", { trim: -2 }), direct("k", "both")],
      1,
    );
    expect(sheetRows(s).map((r) => [r.name, r.from, r.trim, r.over])).toEqual([
      ["m1", "m1, mono sum", -2, false],
      ["k", "k, both channels to mono", 0, true],
    ]);
  });

  it("shows every slot that is used, whatever the setup", () => {
    fc.assert(
      fc.property(anySetup(6, 14), (s) => {
        const rows = sheetRows(s);
        const { used, over } = usageOf(s);
        expect(rows.flatMap((r) => (r.on === null ? [] : [r.slot - 1]))).toEqual(used);
        expect(rows.filter((r) => r.over && r.on !== null).map((r) => r.slot - 1)).toEqual(over);
        expect(rows.length).toBeGreaterThanOrEqual(s.monitor.slotCount);
      }),
    );
  });
});
