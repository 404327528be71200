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
  it("of the example has sixteen lines: what takes each, in stereo or not, and what is free", () => {
    const setup = exampleSetup();
    const rows = sheetRows(setup);
    expect(rows).toHaveLength(16);
    expect(rows.map((r) => r.feed?.input ?? null)).toEqual(
      Array.from({ length: 16 }, (_, i) => setup.monitor.inputs[i] ?? null),
    );
    expect(rows.slice(0, 6).map((r) => r.feed?.stereo)).toEqual([true, true, false, false, true, true]);
    expect(rows[10]).toMatchObject({ input: 11, feed: { input: { on: false } } });
    expect(rows[15]).toEqual({ input: 16, over: false, feed: null });
  });

  it("marks swapped pairs, meant or not", () => {
    const inputs = [side("m1", "right"), side("m1", "left"), direct("k", "right"), direct("k", "left")];
    const channels = [channel("a"), channel("k", { lines: 2 })];
    const swapped = (meant: boolean) =>
      sheetRows(setup(channels, [bus("m1", ["a"], { swapped: meant })], inputs, 4)).map(
        (r) => r.feed?.swapped,
      );
    expect(swapped(true)).toEqual(["on purpose", "on purpose", "by mistake", "by mistake"]);
    expect(swapped(false)).toEqual(["by mistake", "by mistake", "by mistake", "by mistake"]);
  });

  it("knows a mono bus, and what lies over the count", () => {
    const s = setup(
      [channel("a"), channel("k", { lines: 2 })],
      [bus("m1", ["a"], { stereo: false })],
      [side("m1", "left", { trim: -2 }), direct("k", "both")],
      1,
    );
    expect(sheetRows(s).map((r) => [r.feed?.stereo, r.feed?.input.trim, r.over])).toEqual([
      [false, -2, false],
      [true, 0, true],
    ]);
  });

  it("shows every input that is used, whatever the setup", () => {
    fc.assert(
      fc.property(anySetup(6, 14), (s) => {
        const rows = sheetRows(s);
        const { used, over } = usageOf(s);
        expect(rows.flatMap((r) => (r.feed ? [r.input - 1] : []))).toEqual(used);
        expect(rows.filter((r) => r.over && r.feed).map((r) => r.input - 1)).toEqual(over);
        expect(rows.length).toBeGreaterThanOrEqual(s.monitor.inputCount);
      }),
    );
  });
});
