import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type ListLine,
  type ListMode,
  type ListRow,
  listOf,
  withList as withLines,
} from "../../../src/core/inputs/list";
import { listChanges } from "../../../src/core/inputs/list-changes";
import { usageOf } from "../../../src/core/inputs/usage";
import type { Piece, Setup } from "../../../src/core/model/setup";
import { blankSetup } from "../../../src/document/blank";
import { exampleSetup } from "../../../src/document/example";
import { mend } from "../../../src/document/mend";
import type { ReadNote } from "../../../src/text/reading";
import { wholeLine } from "./lines";
import { anySetup, bus, channel, direct, setup, side, tapped } from "./setups";

const withList = (setup: Setup, rows: readonly ListRow[], mode: ListMode): Setup =>
  withLines(setup, rows.map(wholeLine), mode);

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
        [
          tapped(
            channel("s1", { numbers: [4], name: "Snare top", kind: "drum", piece: "p2", gatedRms: -20 }),
            "pre-eq",
          ),
          channel("s2"),
        ],
        [bus("m1", ["s1"])],
        [side("m1", "left"), null, direct("s1", "both", { on: false, trim: -3 })],
      ),
      kit,
    };
    const plain = { lines: 1, pan: 0, muted: false, inverted: false, peak: -10, keepSides: false, extra: [] };
    expect(listOf(s)).toEqual([
      {
        ...plain,
        numbers: [4],
        name: "Snare top",
        kind: "drum",
        gatedRms: -20,
        piece: "Snare",
        feeds: [{ input: 3, side: "both", tap: "pre-eq", on: false, trim: -3 }],
        sends: [
          {
            bus: { name: "m1", numbers: [], stereo: true },
            on: true,
            level: 0,
            tap: "post-fader",
            pan: null,
          },
        ],
      },
      { ...plain, numbers: [], name: "s2", kind: "other", gatedRms: -24, piece: null, feeds: [], sends: [] },
    ]);
  });

  it("comes back from an empty setup, whatever it is", () => {
    /** New buses come in the order in which the list first names them. */
    const sorted = (of: Setup) =>
      listOf(of).map((line) => ({
        ...line,
        sends: [...line.sends].sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1)),
      }));
    fc.assert(
      fc.property(anySetup(8, 14), (s) => {
        const blank = setup([], [], [], s.monitor.inputCount);
        expect(sorted(withList(blank, listOf(s), "replace"))).toEqual(sorted(s));
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

  const nothing = (name: string): ListLine => ({ ...wholeLine({ ...row, name, numbers: [] }), says: {} });
  const full = channel("s1", {
    numbers: [7],
    name: "Vox",
    kind: "vocal",
    lines: 2,
    pan: -0.4,
    muted: true,
    inverted: true,
    gatedRms: -20,
    peak: -8,
    keepSides: true,
  });

  it("changes nothing that a line does not say, whatever it would guess for a new channel", () => {
    const kit = { ...blankSetup().kit, pieces: [piece("p1", "Hat")] };
    const s = { ...setup([{ ...full, piece: "p1" }], [bus("m1", ["s1"])], [direct("s1", "left")]), kit };
    const guess = { ...wholeLine({ ...row, kind: "drum", piece: "Snare" }).otherwise, lines: 1 } as const;
    for (const mode of ["add", "replace"] as const)
      expect(withLines(s, [{ ...nothing("Vox"), otherwise: guess }], mode)).toEqual(s);
  });

  const SAYS: readonly ListLine["says"][] = [
    { kind: "bass" },
    { piece: "Hat" },
    { piece: null },
    { lines: 1 },
    { pan: 0.25 },
    { muted: false },
    { inverted: false },
    { gatedRms: -3 },
    { gatedRms: null },
    { peak: -1 },
    { keepSides: false },
    { feeds: [{ input: 2, side: "right" }] },
  ];
  it.each(SAYS)("changes %j and nothing else, and tells it beforehand", (says) => {
    const kit = { ...blankSetup().kit, pieces: [piece("p1", "Hat"), piece("p2", "Snare")] };
    const s = { ...setup([{ ...full, piece: "p2" }], [], [direct("s1", "left")], 4), kit };
    const after = withLines(s, [{ ...nothing("Vox"), says }], "add");
    const [field] = Object.keys(says) as [keyof ListRow];
    const [was, is] = [listOf(s)[0], listOf(after)[0]] as [ListRow, ListRow];
    expect({ ...is, [field]: was[field] }).toEqual(was);
    expect(is[field]).not.toEqual(was[field]);
    expect(listChanges(s, after)).toEqual([
      { state: "known", id: "s1", row: was, changes: [{ field, from: was[field], to: is[field] }] },
    ]);
  });

  it("changes the channel’s numbers where it names them, and nothing else, and tells it beforehand", () => {
    const s = setup([full], [], [direct("s1", "left")], 4);
    const after = withLines(s, [{ ...nothing("Vox"), numbers: [8, 11] }], "add");
    expect(after).toEqual({ ...s, channels: [{ ...full, numbers: [8, 11] }] });
    expect(listChanges(s, after)).toMatchObject([
      { state: "known", changes: [{ field: "numbers", from: [7], to: [8, 11] }] },
    ]);
  });

  it("keeps tap point, switch and trim of a monitor input that moves, as far as the line does not say them", () => {
    const own = direct("s1", "both", { on: false, trim: -3 });
    const s = setup([tapped(channel("s1", { name: "Vox" }), "pre-eq")], [], [own], 6);
    const feedsOf = (feeds: ListLine["says"]["feeds"] & object) =>
      listOf(withLines(s, [{ ...nothing("Vox"), says: { feeds } }], "add"))[0]?.feeds;
    const was = { side: "both", tap: "pre-eq", on: false, trim: -3 } as const;
    expect(feedsOf([{ input: 1, side: "both" }])).toEqual([{ ...was, input: 1 }]);
    expect(feedsOf([{ input: 4, side: "both", on: true }])).toEqual([{ ...was, input: 4, on: true }]);
    // A further one is not the one that is there, but it takes the same direct out.
    const more = { input: 5, side: "both", tap: "pre-eq", on: true, trim: 0 };
    expect(
      feedsOf([
        { input: 1, side: "both" },
        { input: 5, side: "both" },
      ]),
    ).toEqual([{ ...was, input: 1 }, more]);
  });

  it("tells what is new and what would go", () => {
    const after = withLines(base, [nothing("Keys")], "replace");
    const [bass, vox] = listOf(base);
    expect(listChanges(base, after)).toEqual([
      { state: "new", id: "s3", row: listOf(after)[0] },
      { state: "gone", id: "s1", row: bass },
      { state: "gone", id: "s2", row: vox },
    ]);
    const none = { state: "known", changes: [] };
    expect(listChanges(base, base)).toMatchObject([none, none]);
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
        const notes: ReadNote[] = [];
        mend({ ...blankSetup(), ...after }, (note) => notes.push(note));
        // A channel that has one channel now and kept its inputs: its sides are corrected, nothing goes.
        expect(notes.filter((n) => n.code !== "no such feed" || n.isFree)).toEqual([]);
      }),
    );
  });
});
