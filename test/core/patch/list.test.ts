import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { listOf, withList } from "../../../src/core/patch/list";
import { usageOf } from "../../../src/core/patch/usage";
import type { Piece } from "../../../src/core/setup";
import { blankSetup } from "../../../src/document/blank";
import { exampleSetup } from "../../../src/document/example";
import { mend } from "../../../src/document/mend";
import { anySetup, direct, leg, setup, source, sum } from "./setups";

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
  it("of the example taken into its kit gives the same sources and slots", () => {
    const example = exampleSetup();
    const blank = { ...blankSetup(), kit: example.kit };
    expect(listOf(withList(blank, listOf(example), "add"))).toEqual(listOf(example));
  });

  it("has a line for every source: its piece by name, and the slots of its own by the numbers on the mixer", () => {
    const kit = { ...blankSetup().kit, pieces: [piece("p1", "Hat"), piece("p2", "Snare")] };
    const s = {
      ...setup(
        [source("s1", { name: "Snare top", kind: "drum", piece: "p2", level: -20 }), source("s2")],
        [sum("m1", ["s1"])],
        [leg("m1", "left"), null, direct("s1", "both", { tap: "before-eq", on: false, trim: -3 })],
      ),
      kit,
    };
    const { id: _, ...top } = source("s1", { name: "Snare top", kind: "drum", level: -20 });
    const { id: __, ...other } = source("s2");
    expect(listOf(s)).toEqual([
      {
        ...top,
        piece: "Snare",
        feeds: [{ slot: 3, channel: "both", tap: "before-eq", on: false, trim: -3 }],
      },
      { ...other, piece: null, feeds: [] },
    ]);
  });

  it("comes back from an empty setup, whatever it is", () => {
    fc.assert(
      fc.property(anySetup(8, 14), (s) => {
        const blank = setup([], [], [], s.monitor.slotCount);
        expect(listOf(withList(blank, listOf(s), "replace"))).toEqual(listOf(s));
      }),
    );
  });

  const base = setup(
    [source("s1", { name: "Bass" }), source("s2", { name: "Vox" })],
    [sum("m1", ["s1", "s2"])],
    [direct("s1"), leg("m1", "left"), leg("m1", "right"), direct("s2")],
    6,
  );
  const row = { ...(listOf(base)[0] ?? listOf(exampleSetup())[0]), feeds: [] } as ReturnType<
    typeof listOf
  >[number];

  it("changes a source of the same name, which keeps its sends and slots", () => {
    const after = withList(base, [{ ...row, name: " vox ", level: -3 }], "add");
    expect(after.sources).toMatchObject([{ id: "s1" }, { id: "s2", level: -3 }]);
    expect(after.sums).toEqual(base.sums);
    expect(after.monitor.slots).toEqual(base.monitor.slots);
  });

  it("finds a source by its name, the first one too, with or without spaces around it on either side", () => {
    const spaced = { ...base, sources: [source("s1", { name: "Bass " }), source("s2", { name: "Vox" })] };
    const after = withList(spaced, [{ ...row, name: "bass", level: -3 }], "add");
    expect(after.sources).toMatchObject([{ id: "s1", level: -3 }, { id: "s2" }]);
  });

  it("moves a source to the slots that its line names", () => {
    const feed = { slot: 5, channel: "both", tap: "before-fader", on: true, trim: 0 } as const;
    const after = withList(base, [{ ...row, name: "Vox", feeds: [feed] }], "add");
    expect(after.monitor.slots).toEqual([...base.monitor.slots.slice(0, 3), null, direct("s2")]);
  });

  it("finds the piece by its name; one that the kit has not is no piece", () => {
    const kit = { ...base.kit, pieces: [piece("p1", "Hat"), piece("p2", "Snare")] };
    const lines = ["snare ", "Gong", null].map((at, i) => ({ ...row, name: `New ${i}`, piece: at }));
    const after = withList({ ...base, kit }, lines, "replace");
    expect(after.sources.map((s) => s.piece)).toEqual(["p2", null, null]);
  });

  it("adds what is new, or takes away what it does not name", () => {
    const added = withList(base, [{ ...row, name: "Keys" }], "add");
    expect(added.sources.map((s) => s.id)).toEqual(["s1", "s2", "s3"]);
    const replaced = withList(base, [{ ...row, name: "Vox" }], "replace");
    expect(replaced.sources.map((s) => s.id)).toEqual(["s2"]);
    expect(replaced.sums[0]?.sends.map((s) => s.source)).toEqual(["s2"]);
    expect(replaced.monitor.slots[0]).toBeNull();
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
    expect(new Set(after.sources.map((s) => s.id)).size).toBe(3);
  });

  it("gives what is new an id that nobody has, where ids have gaps too", () => {
    const gaps = { ...base, sources: [source("s2", { name: "Vox" })] };
    const after = withList(
      gaps,
      ["Keys", "Horns"].map((name) => ({ ...row, name })),
      "add",
    );
    expect(after.sources.map((s) => s.id)).toEqual(["s2", "s3", "s4"]);
  });

  it("leaves the slots before a far one empty", () => {
    const feed = { slot: 4, channel: "both", tap: "before-fader", on: true, trim: 0 } as const;
    const after = withList(setup([], [], []), [{ ...row, name: "New", feeds: [feed] }], "add");
    expect(after.monitor.slots).toEqual([null, null, null, direct("s1")]);
  });

  it("puts a feed whose slot is taken into the next free one, or beyond the count", () => {
    const feed = { slot: 2, channel: "both", tap: "before-eq", on: true, trim: 0 } as const;
    const list = [
      { ...row, name: "New", feeds: [feed] },
      { ...row, name: "Other", feeds: [{ ...feed, slot: 5 }] },
    ];
    const after = withList(base, list, "add");
    expect(after.monitor.slots.map((s) => (s?.feed.kind === "source" ? s.feed.source : null))).toEqual([
      "s1",
      null,
      null,
      "s2",
      "s4",
      "s3",
    ]);
    const full = withList({ ...base, monitor: { ...base.monitor, slotCount: 4 } }, list.slice(0, 1), "add");
    expect(usageOf(full).over).toEqual([4]);
  });

  it("looks for the next free slot from the wished one on, then from the start", () => {
    const feed = { slot: 3, channel: "both", tap: "before-eq", on: true, trim: 0 } as const;
    const placed = (slots: Parameters<typeof setup>[2], slotCount: number) => {
      const s = setup([source("s1"), source("s2")], [], slots, slotCount);
      const after = withList(s, [{ ...row, name: "New", feeds: [feed] }], "add");
      return after.monitor.slots.findIndex((x) => x?.feed.kind === "source" && x.feed.source === "s3");
    };
    const taken = direct("s1");
    expect(placed([null, null, taken, null, null], 5)).toBe(3);
    expect(placed([null, null, taken, taken, null], 5)).toBe(4);
    // Slots that nothing was ever in are free as well.
    expect(placed([null, null, taken], 5)).toBe(3);
    expect(placed([taken, null, taken, taken], 4)).toBe(1);
    expect(placed([null, taken, taken], 3)).toBe(0);
    // A gap beyond the count is no free slot.
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
        // A source that has one channel now and kept its slots: its sides are mended, nothing goes.
        expect(notes.filter((n) => !n.endsWith(": mended."))).toEqual([]);
      }),
    );
  });
});
