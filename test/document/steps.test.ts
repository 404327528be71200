import { describe, expect, it } from "vitest";
import { TAP_ADVICE } from "../../src/core/inputs/taps";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import type { Recording } from "../../src/core/model/setup";
import type { Command } from "../../src/document/command";
import { assignBus, assignChannel } from "../../src/document/commands/assign";
import {
  addBus,
  duplicateBus,
  editBus,
  lowerSends,
  removeBus,
  setSend,
  swapBus,
} from "../../src/document/commands/buses";
import {
  addChannel,
  dragPan,
  duplicateChannel,
  editChannel,
  moveChannel,
  removeChannel,
} from "../../src/document/commands/channels";
import {
  answer,
  declineAction,
  endCheck,
  startCheck,
  tickInput,
  undoAnswer,
} from "../../src/document/commands/check";
import { editInput, moveInput, setInput, setInputCount, swapLines } from "../../src/document/commands/inputs";
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
import { forgetRecording, keepRecording } from "../../src/document/commands/recording";
import {
  editDesk,
  editEarphone,
  editMonitorSystem,
  editPreferences,
  rename,
  setNote,
} from "../../src/document/commands/settings";
import { LIMITS, RANGES } from "../../src/document/limits";
import type { SetupFile } from "../../src/document/schema";
import { MONITOR_REST } from "../core/desk";
import { bandSetup } from "./band";
import { applied } from "./commands";

const NO_RECORDING: Recording = { name: "", seconds: 1, channels: [], correlation: [] };
const INPUT = { feed: { kind: "bus", bus: "m1", side: "left" }, port: null, on: true, trim: 0 } as const;

/** Every command, what its undo is called, and what it edits where a visit to that is one undo. */
const COMMANDS: readonly (readonly [label: string, edits: string | null, make: () => Command])[] = [
  ["add piece", null, () => addPiece()],
  ["change piece", "piece p1 ", () => editPiece("p1", {})],
  ["move piece", "piece p1 x+y", () => movePiece("p1", 0, 0)],
  ["remove piece", null, () => removePiece("p1")],
  ["change handedness", null, () => setHand("left")],
  ["turn throne", "throne yaw", () => setYaw(1)],
  ["add listener", null, () => addListener()],
  ["change listener", "listener l1 ", () => editListener("l1", {})],
  ["move listener", "listener l1 x+y", () => moveListener("l1", 0, 0)],
  ["remove listener", null, () => removeListener("l3")],
  ["assign channel", null, () => assignChannel("s1")],
  ["assign bus", null, () => assignBus("m1")],
  ["keep measured figures", null, () => keepRecording(NO_RECORDING, false)],
  ["remove measured figures", null, () => forgetRecording()],
  ["change desk", "desk ", () => editDesk({})],
  ["change monitor system", "monitor ", () => editMonitorSystem({})],
  ["change preferences", "preferences ", () => editPreferences({})],
  ["change earphone", "earphone ", () => editEarphone(null)],
  ["rename", "name", () => rename("")],
  ["change note", "note", () => setNote("")],
  ["assign input", null, () => setInput(0, INPUT)],
  ["free input", null, () => setInput(0, null)],
  ["change input", "input 0 ", () => editInput(0, {})],
  ["move input", "order of inputs", () => moveInput(0, 1)],
  ["swap channel L/R", null, () => swapLines("s11")],
  ["change number of inputs", "number of inputs", () => setInputCount(16)],
  ["add channel", null, () => addChannel(null)],
  ["duplicate channel", null, () => duplicateChannel("s1")],
  ["remove channel", null, () => removeChannel("s1")],
  ["move channel", null, () => moveChannel("s1", "s2")],
  ["change channel", "channel s1 ", () => editChannel("s1", {})],
  ["pan", "channel s1 pan", () => dragPan("s1", 0)],
  ["add bus", null, () => addBus(true)],
  ["duplicate bus", null, () => duplicateBus("m1")],
  ["remove bus", null, () => removeBus("m1")],
  ["change bus", "bus m1 ", () => editBus("m1", {})],
  ["change send", "send m1 s1 ", () => setSend("m1", "s1", {})],
  ["remove from bus", "send m1 s1 ", () => setSend("m1", "s1", null)],
  ["lower sends", null, () => lowerSends("m1", [])],
  ["swap L/R", null, () => swapBus("m1")],
  ["start check", null, () => startCheck("l2")],
  ["answer", null, () => answer("p1", "left")],
  ["remove answer", null, () => undoAnswer()],
  ["skip action", null, () => declineAction("mono")],
  ["stop check", null, () => endCheck()],
  ["line check", null, () => tickInput(0, true)],
];

it.each(COMMANDS)("the undo of a change says what it takes back: %s", (label, edits, make) => {
  const command = make();
  expect(command.label).toBe(label);
  expect("edits" in command ? command.edits : command.key).toBe(edits);
});

const last = <T>(list: readonly T[]): T | undefined => list.at(-1);

describe("what is new begins as is said", () => {
  it("a piece: played by the drummer, at a place for its kind, under a name of its own", () => {
    const { pieces } = applied(bandSetup(), addPiece(), addPiece(), addPiece("hat", "Hat")).kit;
    expect(
      pieces.slice(-3).map(({ id, name, kind, limbs, player }) => [id, name, kind, limbs, player]),
    ).toEqual([
      ["p11", "Piece", "other", ["hand"], "drummer"],
      ["p12", "Piece 2", "other", ["hand"], "drummer"],
      ["p13", "Hat 2", "hat", ["hand", "hat-foot"], "drummer"],
    ]);
  });

  it("a channel: sounding, upright, of no piece, with nothing known", () => {
    expect(last(applied(bandSetup(), addChannel(null)).channels)).toEqual({
      ...BLANK_CHANNEL,
      id: "s19",
      name: "Channel",
      kind: "drum",
    });
  });

  it("a listener: in front of the kit, facing the audience, hearing both sides as they come", () => {
    expect(last(applied(bandSetup(), addListener()).listeners)).toEqual({
      id: "l7",
      name: "Performer",
      kind: "performer",
      x: 0,
      y: 2,
      facing: 0,
      bus: "m1",
      flipped: false,
      mono: false,
    });
  });

  it("a bus: empty, under a name of its own", () => {
    const { buses } = applied(bandSetup(), addBus(true), addBus(false), addBus(true, "Drums"));
    expect(buses.slice(1).map(({ id, name, stereo, sends }) => [id, name, stereo, sends])).toEqual([
      ["m2", "Bus", true, []],
      ["m3", "Bus 2", false, []],
      ["m4", "Drums 2", true, []],
    ]);
  });
});

describe("what is changed", () => {
  const example = bandSetup();
  const changed = (...commands: readonly Command[]): SetupFile => applied(example, ...commands);

  it("is that and nothing else", () => {
    expect(changed(setYaw(20)).kit).toEqual({ ...example.kit, yaw: 20 });
    expect(changed(movePiece("p1", 1, 2)).kit.pieces[0]).toEqual({ ...example.kit.pieces[0], x: 1, y: 2 });
    expect(changed(moveListener("l3", 1, 2)).listeners[2]).toEqual({ ...example.listeners[2], x: 1, y: 2 });
    expect(changed(editMonitorSystem({ maxInputDbu: 9, ...MONITOR_REST })).monitor).toEqual({
      ...example.monitor,
      maxInputDbu: 9,
      ...MONITOR_REST,
    });
    expect(changed(setNote("loud"))).toEqual({ ...example, note: "loud" });
    expect(changed(rename("Hall"))).toEqual({ ...example, name: "Hall" });
    expect(changed(editDesk({ law: "linear" })).desk).toEqual({ ...example.desk, law: "linear" });
  });

  it("are several sends at once: their levels, and no other", () => {
    const pulled = changed(
      lowerSends("m1", [
        { channel: "s1", to: -9 },
        { channel: "s2", to: null },
      ]),
    );
    expect(pulled.buses[0]?.sends.map((s) => s.level)).toEqual([-9, null, -5, -5, -5, -5, -5, -5]);
    expect({ ...pulled, buses: example.buses }).toEqual(example);
  });

  it("stops at what one setup holds", () => {
    const many = <T>(count: number, item: T): T[] => Array.from({ length: count }, () => item);
    const pieces = changed(...many(LIMITS.pieces + 1, addPiece()));
    expect(pieces.kit.pieces).toHaveLength(LIMITS.pieces);
    expect(changed(setInputCount(RANGES.inputCount.max)).monitor.inputCount).toBe(RANGES.inputCount.max);
    for (const count of [RANGES.inputCount.min - 1, RANGES.inputCount.max + 1, 16.5])
      expect(changed(setInputCount(count))).toBe(example);
    for (const at of [-1, 0.5, LIMITS.inputs]) expect(changed(setInput(at, INPUT))).toBe(example);
    expect(changed(setInput(LIMITS.inputs - 1, INPUT)).monitor.inputs).toHaveLength(LIMITS.inputs);
  });
});

describe("placed", () => {
  const example = bandSetup();
  const feeds = (file: SetupFile, from: number) =>
    file.monitor.inputs.slice(from).map((s) => s?.feed ?? null);
  const [left, right] = (["left", "right"] as const).map((side) => ({ kind: "bus", bus: "m2", side }));

  it("a channel takes the first free input, on and untouched, where it fits such a channel", () => {
    const file = applied(example, assignChannel("s1"));
    expect(file.monitor.inputs.slice(14)).toEqual([
      {
        feed: { kind: "channel", channel: "s1", side: "both" },
        port: null,
        on: true,
        trim: 0,
      },
      null,
    ]);
    expect(file.monitor.inputs.slice(0, 14)).toEqual(example.monitor.inputs.slice(0, 14));
    expect({ ...file, monitor: example.monitor }).toEqual(example);
  });

  it("a channel that comes in for the first time has its direct out on, at the tap point that suits it", () => {
    const off = { on: false, tap: "post-fader", trim: -2 } as const;
    const out = (file: SetupFile) => file.channels.find((c) => c.id === "s1")?.directOut;
    const fresh = applied(example, editChannel("s1", { directOut: off }));
    const once = applied(fresh, assignChannel("s1"));
    expect(out(once)).toEqual({ on: true, tap: TAP_ADVICE.drum.better, trim: -2 });
    // In already, it is as somebody set it.
    const twice = applied(once, editChannel("s1", { directOut: off }), assignChannel("s1"));
    expect(out(twice)).toEqual(off);
    const full = applied(fresh, setInput(LIMITS.inputs - 1, INPUT), assignChannel("s2"), assignChannel("s3"));
    expect(applied(full, assignChannel("s1"))).toBe(full);
  });

  it("two channels and two sides take two neighbours, the sides as they are meant", () => {
    const keys = applied(example, assignChannel("s11"));
    expect(feeds(keys, 14).map((f) => (f?.kind === "channel" ? [f.channel, f.side] : f))).toEqual([
      ["s11", "left"],
      ["s11", "right"],
    ]);
    const pair = applied(example, addBus(true));
    expect(feeds(applied(pair, assignBus("m2")), 14)).toEqual([left, right]);
    expect(feeds(applied(pair, editBus("m2", { swapped: true }), assignBus("m2")), 14)).toEqual([
      right,
      left,
    ]);
    expect(feeds(applied(example, addBus(false), assignBus("m2")), 14)).toEqual([left, null]);
  });

  it("where no neighbours are free they go beyond the count, and nothing there moves", () => {
    const file = applied(example, assignChannel("s1"), assignChannel("s11"));
    expect(feeds(file, 14).map((f) => (f?.kind === "channel" ? f.channel : f))).toEqual([
      "s1",
      null,
      "s11",
      "s11",
    ]);
    const further = applied(file, assignChannel("s2"), assignChannel("s3"));
    expect(feeds(further, 14).map((f) => (f?.kind === "channel" ? f.channel : f))).toEqual([
      "s1",
      "s2",
      "s11",
      "s11",
      "s3",
    ]);
  });

  it("nothing that is not there, and nothing beyond what a setup holds", () => {
    expect(applied(example, assignChannel("nobody"))).toBe(example);
    expect(applied(example, assignBus("nothing"))).toBe(example);
    const full = applied(
      example,
      setInput(LIMITS.inputs - 1, INPUT),
      assignChannel("s1"),
      assignChannel("s2"),
    );
    expect(applied(full, assignChannel("s3"))).toBe(full);
    const room = applied(
      example,
      setInput(LIMITS.inputs - 2, INPUT),
      assignChannel("s1"),
      assignChannel("s2"),
    );
    expect(applied(room, assignChannel("s3")).monitor.inputs).toHaveLength(LIMITS.inputs);
    expect(applied(room, assignChannel("s11"))).toBe(room);
  });
});
