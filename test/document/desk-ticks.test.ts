import { describe, expect, it } from "vitest";
import type { ControlCode, DeskControl } from "../../src/core/inputs/controls";
import { controlValue } from "../../src/core/inputs/controls";
import { controlsOf, UNSET } from "../../src/core/inputs/controls-of";
import { type DeskMove, deskList } from "../../src/core/inputs/desk-list";
import { addChannel, editChannel, removeChannel } from "../../src/document/commands/channels";
import { clearDeskTicks, tickMove } from "../../src/document/commands/desk";
import { tickedControls, tickOf, ticksByControl } from "../../src/document/desk-ticks";
import { readSetup } from "../../src/document/read-setup";
import type { DeskTick, SetupFile } from "../../src/document/schema";
import type { ReadNote } from "../../src/text/reading";
import { bandSetup } from "./band";

const STAMP = { at: "2031-05-04T18:20:00.000Z", by: "Jo" };

const moves = (file: SetupFile): DeskMove[] => deskList(file, tickedControls(file.deskTicks ?? []));
const allTicked = (file: SetupFile): SetupFile =>
  deskList(file).reduce((now, move) => tickMove(move, true, STAMP).apply(now), file);
const left = (file: SetupFile): DeskMove[] => {
  const ticks = ticksByControl(file.deskTicks ?? []);
  return moves(file).filter((move) => !tickOf(ticks, move));
};
const again = (file: SetupFile): { file: SetupFile; notes: readonly ReadNote[] } => {
  const read = readSetup(JSON.parse(JSON.stringify(file)));
  if (!read.ok) throw new Error(read.why.code);
  return read;
};

describe("ticks of the desk list", () => {
  it("last: a file with every control ticked reads back with nothing left to set", () => {
    const file = allTicked(bandSetup());
    expect(left(file)).toEqual([]);
    const { file: read, notes } = again(file);
    expect(notes).toEqual([]);
    expect(read.deskTicks).toEqual(file.deskTicks);
    expect(left(read)).toEqual([]);
  });

  it("hold for one value: what is changed afterwards is to be set again, from the value that was ticked", () => {
    const file = allTicked(bandSetup());
    const bass = file.channels.find((c) => c.name === "Bass");
    if (!bass) throw new Error("no bass");
    const directOut = { ...bass.directOut, on: false, tap: "pre-fader", trim: 0 } as const;
    const after = editChannel(bass.id, { directOut }).apply(file);
    expect(left(after).map(({ control, id, from, to }) => ({ control, id, from, to }))).toEqual([
      { control: "direct out", id: bass.id, from: bass.directOut, to: UNSET["direct out"] },
    ]);
    expect(left(editChannel(bass.id, { directOut: bass.directOut }).apply(after))).toEqual([]);
  });

  it("are taken off one by one, and all at once", () => {
    const [first] = deskList(bandSetup());
    if (!first) throw new Error("nothing to set");
    const file = tickMove(first, true, STAMP).apply(bandSetup());
    expect(file.deskTicks).toHaveLength(1);
    expect(tickMove(first, false, STAMP).apply(file).deskTicks).toBeUndefined();
    expect(clearDeskTicks(STAMP).apply(allTicked(bandSetup())).deskTicks).toBeUndefined();
  });

  it("do nothing twice: the very same setup", () => {
    const [first] = deskList(bandSetup());
    if (!first) throw new Error("nothing to set");
    const file = tickMove(first, true, STAMP).apply(bandSetup());
    expect(tickMove(first, true, { ...STAMP, by: "Ada" }).apply(file)).toBe(file);
    const bare = bandSetup();
    expect(tickMove(first, false, STAMP).apply(bare)).toBe(bare);
    expect(clearDeskTicks(STAMP).apply(bare)).toBe(bare);
  });

  it("go with their channel, so that the next one of its id begins without", () => {
    const file = allTicked(bandSetup());
    const last = file.channels.at(-1)?.id ?? "";
    const gone = removeChannel(last).apply(file);
    expect(gone.deskTicks?.filter((t) => t.id === last)).toEqual([]);
    const more = addChannel(null).apply(gone);
    expect(more.channels.at(-1)?.id).toBe(last);
    expect(more.deskTicks).toEqual(gone.deskTicks);
  });
});

describe("ticks from a file", () => {
  const [move] = deskList(bandSetup());
  const good: DeskTick = { control: "pan", id: move?.id ?? "", bus: "", value: "0.5", ...STAMP };
  /** As a tick of the line check has it. */
  const LINE = JSON.stringify(bandSetup().monitor.inputs[0]?.feed);
  const SEND = JSON.stringify({ on: true, level: 0, tap: "post-fader", pan: null });
  const read = (deskTicks: unknown) => again({ ...bandSetup(), deskTicks } as SetupFile);

  it.each<[string, unknown]>([
    ["no object", 7],
    ["an unknown control", { ...good, control: "toString" }],
    ["a value of another kind", { ...good, value: '"left"' }],
    ["a value that is no JSON", { ...good, value: "{" }],
    ["a value without end", { ...good, value: `0.${"5".repeat(300)}` }],
    ["an id without end", { ...good, id: "s".repeat(41) }],
    ["no time", { ...good, at: 5 }],
    ["a list in the place of a control", { ...good, control: ["pan"] }],
    ["a list in the place of an id", { ...good, id: [good.id] }],
    ["a list in the place of a value", { ...good, value: ["0.5"] }],
    ["a list in the place of a name", { ...good, by: ["Jo"] }],
    ["a line of the line check", { ...good, control: "line check", value: LINE }],
    ["the trim of one side only", { ...good, control: "side trim", id: "m1", value: "[1]" }],
    ["the trims of three sides", { ...good, control: "side trim", id: "m1", value: "[1,2,3]" }],
    ["trims that are words", { ...good, control: "side trim", id: "m1", value: '["a","b"]' }],
    ["a text in the place of numbers", { ...good, control: "channel number", value: '"12"' }],
  ])("with %s is left out, said, and the others stay", (_, bad) => {
    const { file, notes } = read([bad, good]);
    expect(file.deskTicks).toEqual([good]);
    expect(notes).toEqual([expect.objectContaining({ code: "bad ticks", bad: 1, all: 2 })]);
  });

  it.each<[string, unknown]>([
    ["text", "ticks"],
    ["none", []],
  ])("that are %s leave none", (_, ticks) => {
    expect(read(ticks).file.deskTicks).toBeUndefined();
  });

  it.each<[string, Partial<DeskTick>]>([
    ["an input with letters before its number", { control: "input on", id: "x0", value: "true" }],
    ["an input with letters behind its number", { control: "input on", id: "0x", value: "true" }],
    ["an input by another spelling", { control: "input on", id: "00", value: "true" }],
    ["an input at somebody’s mixer", { control: "input on", id: "0", bus: "l2", value: "true" }],
    ["a mute in a bus", { control: "mute", bus: "m1", value: "true" }],
    ["a send to no bus", { control: "send", value: SEND }],
  ])("of %s are of nothing that is there", (_, bad) => {
    expect(read([good, { ...good, ...bad }]).file.deskTicks).toEqual([good]);
  });

  it("of one control twice leave the last", () => {
    expect(read([good, { ...good, value: "0.25" }]).file.deskTicks).toEqual([{ ...good, value: "0.25" }]);
  });

  it("know every value that a control can stand at", () => {
    const samples: DeskControl[] = [
      ...controlsOf(bandSetup()),
      ...(Object.keys(UNSET) as ControlCode[]).map(
        (control) => ({ control, id: "0", bus: "", value: UNSET[control] }) as DeskControl,
      ),
    ];
    const ids = { channel: "s1", bus: "m1", listener: "l2" };
    for (const { control, value } of samples) {
      const id = /^(input)/.test(control) ? "0" : /bus|side|pad/.test(control) ? ids.bus : ids.channel;
      const tick = {
        control,
        id: /hears|flip|^mono/.test(control) ? ids.listener : id,
        bus: control === "send" ? "m1" : "",
        value: controlValue(value),
        ...STAMP,
      };
      expect(read([tick]).file.deskTicks, control).toEqual([tick]);
    }
  });
});
