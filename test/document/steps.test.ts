import { describe, expect, it } from "vitest";
import type { Recording } from "../../src/core/setup";
import type { Command } from "../../src/document/command";
import { answer, endCheck, startCheck, takeBackAnswer, tickSlot } from "../../src/document/commands/check";
import {
  addPiece,
  editPiece,
  movePiece,
  removePiece,
  setHand,
  setYaw,
} from "../../src/document/commands/kit";
import {
  addListener,
  editListener,
  moveListener,
  removeListener,
} from "../../src/document/commands/listeners";
import { placeSource, placeSum } from "../../src/document/commands/place";
import { forgetRecording, keepRecording } from "../../src/document/commands/recording";
import {
  editConsole,
  editEar,
  editMonitor,
  editWishes,
  rename,
  setNote,
} from "../../src/document/commands/settings";
import { editSlot, moveSlot, setSlot, setSlotCount, swapChannels } from "../../src/document/commands/slots";
import {
  addSource,
  dragPan,
  duplicateSource,
  editSource,
  moveSource,
  removeSource,
} from "../../src/document/commands/sources";
import {
  addSum,
  duplicateSum,
  editSum,
  pullSends,
  removeSum,
  setSend,
  swapPair,
} from "../../src/document/commands/sums";
import { exampleSetup } from "../../src/document/example";
import { LIMITS, RANGES } from "../../src/document/limits";
import type { SetupFile } from "../../src/document/schema";
import { applied } from "./commands";

const NO_RECORDING: Recording = { name: "", seconds: 1, sources: [], correlation: [] };
const SLOT = { feed: { kind: "leg", sum: "m1", leg: "left" }, on: true, trim: 0 } as const;

/** Every command, what its undo is called, and whether it goes with the finger. */
const COMMANDS: readonly (readonly [label: string, kind: Command["kind"], make: () => Command])[] = [
  ["add piece", "step", () => addPiece()],
  ["change piece", "step", () => editPiece("p1", {})],
  ["move piece", "drag", () => movePiece("p1", 0, 0)],
  ["delete piece", "step", () => removePiece("p1")],
  ["change handedness", "step", () => setHand("left")],
  ["turn throne", "drag", () => setYaw(1)],
  ["add listener", "step", () => addListener()],
  ["change listener", "step", () => editListener("l1", {})],
  ["move listener", "drag", () => moveListener("l1", 0, 0)],
  ["delete listener", "step", () => removeListener("l3")],
  ["place source", "step", () => placeSource("s1")],
  ["place sum", "step", () => placeSum("m1")],
  ["keep measured figures", "step", () => keepRecording(NO_RECORDING, false)],
  ["forget measured figures", "step", () => forgetRecording()],
  ["change console", "step", () => editConsole({})],
  ["change monitor system", "step", () => editMonitor({})],
  ["change wishes", "step", () => editWishes({})],
  ["change earphones", "step", () => editEar(null)],
  ["rename", "step", () => rename("")],
  ["change note", "step", () => setNote("")],
  ["fill slot", "step", () => setSlot(0, SLOT)],
  ["free slot", "step", () => setSlot(0, null)],
  ["change slot", "step", () => editSlot(0, {})],
  ["move slot", "step", () => moveSlot(0, 1)],
  ["swap channels", "step", () => swapChannels("s11")],
  ["change number of slots", "step", () => setSlotCount(16)],
  ["add source", "step", () => addSource(null)],
  ["duplicate source", "step", () => duplicateSource("s1")],
  ["delete source", "step", () => removeSource("s1")],
  ["move source", "step", () => moveSource("s1", "s2")],
  ["change source", "step", () => editSource("s1", {})],
  ["pan", "drag", () => dragPan("s1", 0)],
  ["add sum", "step", () => addSum(true)],
  ["duplicate sum", "step", () => duplicateSum("m1")],
  ["delete sum", "step", () => removeSum("m1")],
  ["change sum", "step", () => editSum("m1", {})],
  ["change send", "step", () => setSend("m1", "s1", {})],
  ["take out of sum", "step", () => setSend("m1", "s1", null)],
  ["pull sends", "step", () => pullSends("m1", [])],
  ["swap pair", "step", () => swapPair("m1")],
  ["start check", "step", () => startCheck("l2")],
  ["answer", "step", () => answer("p1", "left")],
  ["take back answer", "step", () => takeBackAnswer()],
  ["end check", "step", () => endCheck()],
  ["tick slot", "step", () => tickSlot(0, true)],
];

it.each(COMMANDS)("the undo of a change says what it takes back: %s", (label, kind, make) => {
  const command = make();
  expect([command.label, command.kind]).toEqual([label, kind]);
});

const last = <T>(list: readonly T[]): T | undefined => list.at(-1);

describe("what is new begins as is said", () => {
  it("a piece: played by the drummer, at a place for its kind, under a name of its own", () => {
    const { pieces } = applied(exampleSetup(), addPiece(), addPiece(), addPiece("hat", "Hat")).kit;
    expect(
      pieces.slice(-3).map(({ id, name, kind, limbs, player }) => [id, name, kind, limbs, player]),
    ).toEqual([
      ["p11", "Piece", "other", ["hand"], "drummer"],
      ["p12", "Piece 2", "other", ["hand"], "drummer"],
      ["p13", "Hat 2", "hat", ["hand", "hat-foot"], "drummer"],
    ]);
  });

  it("a source: sounding, upright, of no piece, with nothing known", () => {
    expect(last(applied(exampleSetup(), addSource(null)).sources)).toEqual({
      id: "s19",
      name: "Source",
      kind: "drum",
      piece: null,
      channels: 1,
      pan: 0,
      muted: false,
      inverted: false,
      level: null,
      peak: null,
      keepSides: false,
    });
  });

  it("a listener: in front of the kit, facing the audience, hearing both legs as they come", () => {
    expect(last(applied(exampleSetup(), addListener()).listeners)).toEqual({
      id: "l7",
      name: "Performer",
      kind: "performer",
      x: 0,
      y: 2,
      facing: 0,
      sum: "m1",
      flipped: false,
      mono: false,
    });
  });

  it("a sum: empty, under a name of its own", () => {
    const { sums } = applied(exampleSetup(), addSum(true), addSum(false), addSum(true, "Drums"));
    expect(sums.slice(1).map(({ id, name, stereo, sends }) => [id, name, stereo, sends])).toEqual([
      ["m2", "Sum", true, []],
      ["m3", "Sum 2", false, []],
      ["m4", "Drums 2", true, []],
    ]);
  });
});

describe("what is changed", () => {
  const example = exampleSetup();
  const changed = (...commands: readonly Command[]): SetupFile => applied(example, ...commands);

  it("is that and nothing else", () => {
    expect(changed(setYaw(20)).kit).toEqual({ ...example.kit, yaw: 20 });
    expect(changed(movePiece("p1", 1, 2)).kit.pieces[0]).toEqual({ ...example.kit.pieces[0], x: 1, y: 2 });
    expect(changed(moveListener("l3", 1, 2)).listeners[2]).toEqual({ ...example.listeners[2], x: 1, y: 2 });
    expect(changed(editMonitor({ inputMaxDbu: 9 })).monitor).toEqual({ ...example.monitor, inputMaxDbu: 9 });
    expect(changed(setNote("loud"))).toEqual({ ...example, note: "loud" });
    expect(changed(rename("Hall"))).toEqual({ ...example, name: "Hall" });
    expect(changed(editConsole({ law: "linear" })).console).toEqual({ ...example.console, law: "linear" });
  });

  it("are several sends at once: their levels, and no other", () => {
    const pulled = changed(
      pullSends("m1", [
        { source: "s1", to: -9 },
        { source: "s2", to: null },
      ]),
    );
    expect(pulled.sums[0]?.sends.map((s) => s.level)).toEqual([-9, null, -5, -5, -5, -5, -5, -5]);
    expect({ ...pulled, sums: example.sums }).toEqual(example);
  });

  it("stops at what one setup holds", () => {
    const many = <T>(count: number, item: T): T[] => Array.from({ length: count }, () => item);
    const pieces = changed(...many(LIMITS.pieces + 1, addPiece()));
    expect(pieces.kit.pieces).toHaveLength(LIMITS.pieces);
    expect(changed(setSlotCount(RANGES.slotCount.max)).monitor.slotCount).toBe(RANGES.slotCount.max);
    for (const count of [RANGES.slotCount.min - 1, RANGES.slotCount.max + 1, 16.5])
      expect(changed(setSlotCount(count))).toBe(example);
    for (const at of [-1, 0.5, LIMITS.slots]) expect(changed(setSlot(at, SLOT))).toBe(example);
    expect(changed(setSlot(LIMITS.slots - 1, SLOT)).monitor.slots).toHaveLength(LIMITS.slots);
  });
});

describe("placed", () => {
  const example = exampleSetup();
  const feeds = (file: SetupFile, from: number) => file.monitor.slots.slice(from).map((s) => s?.feed ?? null);
  const [left, right] = (["left", "right"] as const).map((leg) => ({ kind: "leg", sum: "m2", leg }));

  it("a source takes the first free slot, on and untouched, where it fits such a source", () => {
    const file = applied(example, placeSource("s1"));
    expect(file.monitor.slots.slice(14)).toEqual([
      { feed: { kind: "source", source: "s1", channel: "both", tap: "before-fader" }, on: true, trim: 0 },
      null,
    ]);
    expect(file.monitor.slots.slice(0, 14)).toEqual(example.monitor.slots.slice(0, 14));
    expect({ ...file, monitor: example.monitor }).toEqual(example);
  });

  it("two channels and two legs take two neighbours, the legs as they are meant", () => {
    const keys = applied(example, placeSource("s11"));
    expect(feeds(keys, 14).map((f) => (f?.kind === "source" ? [f.source, f.channel] : f))).toEqual([
      ["s11", "left"],
      ["s11", "right"],
    ]);
    const pair = applied(example, addSum(true));
    expect(feeds(applied(pair, placeSum("m2")), 14)).toEqual([left, right]);
    expect(feeds(applied(pair, editSum("m2", { reversed: true }), placeSum("m2")), 14)).toEqual([
      right,
      left,
    ]);
    expect(feeds(applied(example, addSum(false), placeSum("m2")), 14)).toEqual([left, null]);
  });

  it("where no neighbours are free they go beyond the count, and nothing there moves", () => {
    const file = applied(example, placeSource("s1"), placeSource("s11"));
    expect(feeds(file, 14).map((f) => (f?.kind === "source" ? f.source : f))).toEqual([
      "s1",
      null,
      "s11",
      "s11",
    ]);
    const further = applied(file, placeSource("s2"), placeSource("s3"));
    expect(feeds(further, 14).map((f) => (f?.kind === "source" ? f.source : f))).toEqual([
      "s1",
      "s2",
      "s11",
      "s11",
      "s3",
    ]);
  });

  it("nothing that is not there, and nothing beyond what a setup holds", () => {
    expect(applied(example, placeSource("nobody"))).toBe(example);
    expect(applied(example, placeSum("nothing"))).toBe(example);
    const full = applied(example, setSlot(LIMITS.slots - 1, SLOT), placeSource("s1"), placeSource("s2"));
    expect(applied(full, placeSource("s3"))).toBe(full);
    const room = applied(example, setSlot(LIMITS.slots - 2, SLOT), placeSource("s1"), placeSource("s2"));
    expect(applied(room, placeSource("s3")).monitor.slots).toHaveLength(LIMITS.slots);
    expect(applied(room, placeSource("s11"))).toBe(room);
  });
});
