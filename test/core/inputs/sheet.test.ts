import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sheetRows } from "../../../src/core/inputs/sheet";
import { firstFree, usageOf } from "../../../src/core/inputs/usage";
import { exampleSetup } from "../../../src/document/example";
import { anySetup, bus, channel, direct, setup, side } from "./setups";

describe("usage", () => {
  const s = setup(
    [channel("a"), channel("b"), channel("c")],
    [bus("m1", ["a"]), bus("m2", ["a"], { stereo: false })],
    [side("m1", "left"), null, direct("b"), null, null, direct("b")],
    4,
  );

  it("tells what is used, free, over and without an input", () => {
    expect(usageOf(s)).toEqual({
      used: [0, 2, 5],
      over: [5],
      free: [1, 3],
      tooMany: 0,
      channelsWithout: ["a", "c"],
      sidesWithout: [
        { bus: "m1", side: "right" },
        { bus: "m2", side: "left" },
      ],
    });
    expect(usageOf({ ...s, monitor: { ...s.monitor, inputCount: 2 } }).tooMany).toBe(1);
  });

  it("finds the first free neighbours within the count", () => {
    expect(firstFree(s.monitor, 1)).toEqual([1]);
    expect(firstFree(s.monitor, 2)).toBeNull();
    expect(firstFree({ ...s.monitor, inputCount: 8 }, 2)).toEqual([3, 4]);
  });

  it("counts inputs that the list does not reach as free", () => {
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
      "Drums, left side",
      "Drums, right side",
      "Bass, direct",
      "Guitar, direct",
      "Keys, left channel",
    ]);
    expect(rows[10]).toMatchObject({ input: 11, name: "Backing voice 2", on: false, tap: "Before fader" });
    expect(rows[15]).toEqual({
      input: 16,
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
    const inputs = [side("m1", "right"), side("m1", "left"), direct("k", "right"), direct("k", "left")];
    const channels = [channel("a"), channel("k", { lines: 2 })];
    const swapped = (reversed: boolean) =>
      sheetRows(setup(channels, [bus("m1", ["a"], { swapped: reversed })], inputs, 4)).map((r) => r.swapped);
    expect(swapped(true)).toEqual(["on purpose", "on purpose", "by mistake", "by mistake"]);
    expect(swapped(false)).toEqual(["by mistake", "by mistake", "by mistake", "by mistake"]);
  });

  it("says mono buses, both channels in one input, and what is over the count", () => {
    const s = setup(
      [channel("a"), channel("k", { lines: 2 })],
      [bus("m1", ["a"], { stereo: false })],
      [side("m1", "left", { trim: -2 }), direct("k", "both")],
      1,
    );
    expect(sheetRows(s).map((r) => [r.name, r.from, r.trim, r.over])).toEqual([
      ["m1", "m1, mono bus", -2, false],
      ["k", "k, both channels to mono", 0, true],
    ]);
  });

  it("shows every input that is used, whatever the setup", () => {
    fc.assert(
      fc.property(anySetup(6, 14), (s) => {
        const rows = sheetRows(s);
        const { used, over } = usageOf(s);
        expect(rows.flatMap((r) => (r.on === null ? [] : [r.input - 1]))).toEqual(used);
        expect(rows.filter((r) => r.over && r.on !== null).map((r) => r.input - 1)).toEqual(over);
        expect(rows.length).toBeGreaterThanOrEqual(s.monitor.inputCount);
      }),
    );
  });
});
