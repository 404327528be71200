import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { listOf, withList } from "../../../src/core/inputs/list";
import { usageOf } from "../../../src/core/inputs/usage";
import type { Piece } from "../../../src/core/model/setup";
import { blankSetup } from "../../../src/document/blank";
import { exampleSetup } from "../../../src/document/example";
import { mend } from "../../../src/document/mend";
import { anySetup, bus, channel, direct, setup, side } from "./setups";

const piece = (id: string, name: string): Piece => ({
  id,
  name,
  kind: "hat",
  x: 0,
  y: 0,
  limbs: [],
  player: "drummer",
});

describe("an input list", () => {
  it("of the example taken into its kit gives the same channels and inputs", () => {
    const example = exampleSetup();
    const blank = { ...blankSetup(), kit: example.kit };
    expect(listOf(withList(blank, listOf(example), "add"))).toEqual(listOf(example));
  });

  it("has a line for every source: its piece by name, and the inputs of its own by the numbers on the mixer", () => {
    const kit = { ...blankSetup().kit, pieces: [piece("p1", "Hat"), piece("p2", "Snare")] };
    const s = {
      ...setup(
        [channel("s1", { name: "Snare top", kind: "drum", piece: "p2", gatedRms: -20 }), channel("s2")],
        [bus("m1", ["s1"])],
        [side("m1", "left"), null, direct("s1", "both", { tap: "pre-eq", on: false, trim: -3 })],
      ),
      kit,
    };
    const { id: _, ...top } = channel("s1", { name: "Snare top", kind: "drum", gatedRms: -20 });
    const { id: __, ...other } = channel("s2");
    expect(listOf(s)).toEqual([
      {
        ...top,
        piece: "Snare",
        feeds: [{ input: 3, side: "both", tap: "pre-eq", on: false, trim: -3 }],
      },
      { ...other, piece: null, feeds: [] },
    ]);
  });

  it("comes back from an empty setup, whatever it is", () => {
    fc.assert(
      fc.property(anySetup(8, 14), (s) => {
        const blank = setup([], [], [], s.monitor.inputCount);
        expect(listOf(withList(blank, listOf(s), "replace"))).toEqual(listOf(s));
      }),
    );
  });

  const base = setup(
    [channel("s1", { name: "Bass" }), channel("s2", { name: "Vox" })],
    [bus("m1", ["s1", "s2"])],
    [direct("s1"), side("m1", "left"), side("m1", "right"), direct("s2")],
    6,
  );
  const row = { ...(listOf(base)[0] ?? listOf(exampleSetup())[0]), feeds: [] } as ReturnType<
    typeof listOf
  >[number];

  it("changes a channel of the same name, which keeps its sends and inputs", () => {
    const after = withList(base, [{ ...row, name: " vox ", gatedRms: -3 }], "add");
    expect(after.channels).toMatchObject([{ id: "s1" }, { id: "s2", gatedRms: -3 }]);
    expect(after.buses).toEqual(base.buses);
    expect(after.monitor.inputs).toEqual(base.monitor.inputs);
  });

  it("finds a channel by its name, the first one too, with or without spaces around it on either side", () => {
    const spaced = { ...base, channels: [channel("s1", { name: "Bass " }), channel("s2", { name: "Vox" })] };
    const after = withList(spaced, [{ ...row, name: "bass", gatedRms: -3 }], "add");
    expect(after.channels).toMatchObject([{ id: "s1", gatedRms: -3 }, { id: "s2" }]);
  });

  it("moves a channel to the inputs that its line names", () => {
    const feed = { input: 5, side: "both", tap: "pre-fader", on: true, trim: 0 } as const;
    const after = withList(base, [{ ...row, name: "Vox", feeds: [feed] }], "add");
    expect(after.monitor.inputs).toEqual([...base.monitor.inputs.slice(0, 3), null, direct("s2")]);
  });

  it("finds the piece by its name; one that the kit has not is no piece", () => {
    const kit = { ...base.kit, pieces: [piece("p1", "Hat"), piece("p2", "Snare")] };
    const lines = ["snare ", "Gong", null].map((at, i) => ({ ...row, name: `New ${i}`, piece: at }));
    const after = withList({ ...base, kit }, lines, "replace");
    expect(after.channels.map((s) => s.piece)).toEqual(["p2", null, null]);
  });

  it("adds what is new, or takes away what it does not name", () => {
    const added = withList(base, [{ ...row, name: "Keys" }], "add");
    expect(added.channels.map((s) => s.id)).toEqual(["s1", "s2", "s3"]);
    const replaced = withList(base, [{ ...row, name: "Vox" }], "replace");
    expect(replaced.channels.map((s) => s.id)).toEqual(["s2"]);
    expect(replaced.buses[0]?.sends.map((s) => s.channel)).toEqual(["s2"]);
    expect(replaced.monitor.inputs[0]).toBeNull();
  });

  it("gives two of one name an id each", () => {
    const after = withList(
      base,
      [
        { ...row, name: "Vox" },
        { ...row, name: "Vox" },
      ],
      "add",
    );
    expect(new Set(after.channels.map((s) => s.id)).size).toBe(3);
  });

  it("gives what is new an id that nobody has, where ids have gaps too", () => {
    const gaps = { ...base, channels: [channel("s2", { name: "Vox" })] };
    const after = withList(
      gaps,
      ["Keys", "Horns"].map((name) => ({ ...row, name })),
      "add",
    );
    expect(after.channels.map((s) => s.id)).toEqual(["s2", "s3", "s4"]);
  });

  it("leaves the inputs before a far one empty", () => {
    const feed = { input: 4, side: "both", tap: "pre-fader", on: true, trim: 0 } as const;
    const after = withList(setup([], [], []), [{ ...row, name: "New", feeds: [feed] }], "add");
    expect(after.monitor.inputs).toEqual([null, null, null, direct("s1")]);
  });

  it("puts a feed whose input is taken into the next free one, or beyond the count", () => {
    const feed = { input: 2, side: "both", tap: "pre-eq", on: true, trim: 0 } as const;
    const list = [
      { ...row, name: "New", feeds: [feed] },
      { ...row, name: "Other", feeds: [{ ...feed, input: 5 }] },
    ];
    const after = withList(base, list, "add");
    expect(after.monitor.inputs.map((s) => (s?.feed.kind === "channel" ? s.feed.channel : null))).toEqual([
      "s1",
      null,
      null,
      "s2",
      "s4",
      "s3",
    ]);
    const full = withList({ ...base, monitor: { ...base.monitor, inputCount: 4 } }, list.slice(0, 1), "add");
    expect(usageOf(full).over).toEqual([4]);
  });

  it("looks for the next free input from the wished one on, then from the start", () => {
    const feed = { input: 3, side: "both", tap: "pre-eq", on: true, trim: 0 } as const;
    const placed = (inputs: Parameters<typeof setup>[2], inputCount: number) => {
      const s = setup([channel("s1"), channel("s2")], [], inputs, inputCount);
      const after = withList(s, [{ ...row, name: "New", feeds: [feed] }], "add");
      return after.monitor.inputs.findIndex((x) => x?.feed.kind === "channel" && x.feed.channel === "s3");
    };
    const taken = direct("s1");
    expect(placed([null, null, taken, null, null], 5)).toBe(3);
    expect(placed([null, null, taken, taken, null], 5)).toBe(4);
    // Inputs that nothing was ever in are free as well.
    expect(placed([null, null, taken], 5)).toBe(3);
    expect(placed([taken, null, taken, taken], 4)).toBe(1);
    expect(placed([null, taken, taken], 3)).toBe(0);
    // A gap beyond the count is no free input.
    expect(placed([taken, null, taken, null, taken], 3)).toBe(1);
    expect(placed([taken, taken, taken], 3)).toBe(3);
  });

  it("drops no feed and leaves a setup whole in itself", () => {
    fc.assert(
      fc.property(anySetup(5, 9), anySetup(5, 9), fc.constantFrom("add", "replace"), (a, b, mode) => {
        const list = listOf(b).map((r) => ({ ...r, piece: null }));
        const after = withList(a, list, mode as "add" | "replace");
        const names = new Set(list.map((r) => r.name.toLowerCase()));
        const feeds = list.reduce((n, r) => n + r.feeds.length, 0);
        const mine = listOf(after).filter((r) => names.has(r.name.toLowerCase()));
        expect(mine.reduce((n, r) => n + r.feeds.length, 0)).toBeGreaterThanOrEqual(feeds);
        const notes: string[] = [];
        mend({ ...blankSetup(), ...after }, (says) => notes.push(says));
        // A channel that has one channel now and kept its inputs: its sides are mended, nothing goes.
        expect(notes.filter((n) => !n.endsWith(": mended."))).toEqual([]);
      }),
    );
  });
});
