import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { listOf, withList } from "../../../src/core/patch/list";
import { usageOf } from "../../../src/core/patch/usage";
import { blankSetup } from "../../../src/document/blank";
import { exampleSetup } from "../../../src/document/example";
import { mend } from "../../../src/document/mend";
import { anySetup, direct, leg, setup, source, sum } from "./setups";

describe("an input list", () => {
  it("of the example taken into its kit gives the same sources and slots", () => {
    const example = exampleSetup();
    const blank = { ...blankSetup(), kit: example.kit };
    expect(listOf(withList(blank, listOf(example), "add"))).toEqual(listOf(example));
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
    expect(placed([taken, null, taken, taken], 4)).toBe(1);
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
