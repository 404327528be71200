import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Channel, Listener, MonitorInput, Recording } from "../../src/core/model/setup";
import { addBus, duplicateBus, editBus, setSend, swapBus } from "../../src/document/commands/buses";
import {
  addChannel,
  dragPan,
  editChannel,
  moveChannel,
  removeChannel,
} from "../../src/document/commands/channels";
import { editInput, moveInput, setInput, setInputCount } from "../../src/document/commands/inputs";
import { addPiece, editPiece, movePiece } from "../../src/document/commands/kit";
import { addListener, editListener, moveListener } from "../../src/document/commands/listeners";
import {
  editDesk,
  editEarphone,
  editPreferences,
  rename,
  setNote,
} from "../../src/document/commands/settings";
import { compareSetups } from "../../src/document/compare";
import type { SetupFile } from "../../src/document/schema";
import { describeDifference } from "../../src/text/compare";
import { bandSetup } from "../document/band";
import { applied, commands } from "../document/commands";
import { measured } from "../document/measured";

const example = bandSetup();
const said = (from: SetupFile, to: SetupFile): string[] => {
  const comparison = compareSetups(from, to);
  return comparison.differences.map((d) => `${d.part} | ${describeDifference(d, comparison)}`);
};
const pieceOf = (name: string): string => example.kit.pieces.find((p) => p.name === name)?.id ?? "";
const idOf = (name: string): string => example.channels.find((s) => s.name === name)?.id ?? "";

describe("one change at a time", () => {
  it.each([
    [dragPan(idOf("Hat"), -0.4), ["Channels | Hat: pan L40 instead of R70"]],
    [
      editChannel(idOf("Bass"), { gatedRms: -20, muted: true }),
      [
        "Channels | Bass: muted instead of not muted",
        "Channels | Bass: gated RMS −20 dBFS instead of −22 dBFS",
      ],
    ],
    [editChannel(idOf("Hat"), { name: "Hi-hat" }), ["Channels | Hat: name Hi-hat instead of Hat"]],
    [addChannel(null), ["Channels | Channel is new"]],
    [moveChannel(idOf("Hat"), idOf("Tom 1")), ["Channels | The channels are in another order"]],
    [editChannel(idOf("Bass"), { peak: null }), ["Channels | Bass: peak not entered instead of −10 dBFS"]],
    [editChannel(idOf("Bass"), { piece: "p1" }), ["Channels | Bass: kit piece “Kick” instead of none"]],
    [
      swapBus("m1"),
      [
        "Buses | Drums: L/R swapped instead of L/R normal",
        "Inputs | Input 1: “Drums” R instead of “Drums” L",
        "Inputs | Input 2: “Drums” L instead of “Drums” R",
      ],
    ],
    [editBus("m1", { trim: -3 }), ["Buses | Drums: trim −3 dB instead of 0 dB"]],
    [addBus(false, "Voices"), ["Buses | Voices is new"]],
    [setSend("m1", idOf("Hat"), null), ["Buses | Drums: Hat is no longer sent to it"]],
    [setSend("m1", idOf("Bass"), {}), ["Buses | Drums: Bass is now sent to it"]],
    [
      setSend("m1", idOf("Hat"), { pan: 0.4 }),
      ["Buses | Drums: Hat with pan R40 instead of follows channel pan"],
    ],
    [addListener("Sol, guitar"), ["Listeners | Sol, guitar is new"]],
    [
      editListener("l3", { flipped: true }),
      ["Listeners | Tobi, lead vox: mixer flips L/R instead of mixer does not flip L/R"],
    ],
    [editListener("l3", { bus: null }), ["Listeners | Tobi, lead vox: hears no bus instead of “Drums”"]],
    [
      editDesk({ law: "linear", outputDbu: 18 }),
      [
        "Desk | Pan law Linear instead of Constant power, sin/cos",
        "Desk | Output at 0 dBFS 18 dBu instead of 22 dBu",
      ],
    ],
    [
      editPreferences({ first: "l1" }),
      ["Preferences | Who matters most: “Audience” instead of “Mara, drums”"],
    ],
    [editEarphone({}), ["Earphones | Earphone data added"]],
    [setInputCount(12), ["Inputs | Number of inputs 12 instead of 16"]],
    [setInput(2, null), ["Inputs | Input 3: nothing instead of “Bass”"]],
    [
      editInput(10, { port: null, on: true, trim: -2 }),
      ["Inputs | Input 11: “BV 2”, trim −2 dB instead of “BV 2”, off"],
    ],
    [
      movePiece("p1", 0.25, -0.5),
      [
        "Kit | Kick: place 0.25 m right of the throne, 0.5 m behind instead of 0 m right of the throne, 0.75 m in front",
      ],
    ],
    [addPiece("percussion", "Cowbell"), ["Kit | Cowbell is new"]],
    [rename("For next week"), []],
    [
      setNote(""),
      [
        "Setup | Note none instead of “Invented band, hall, people and levels: a worked example to try things on.”",
      ],
    ],
    [
      editPiece(pieceOf("Hat"), { limbs: [] }),
      ["Kit | Hat: played with nothing instead of a hand and the hat foot"],
    ],
    [
      editPiece(pieceOf("Kick"), { limbs: ["whole"] }),
      ["Kit | Kick: played with the whole kit instead of the kick foot"],
    ],
    [
      editDesk({ law: "custom", centreDb: 4 }),
      [
        "Desk | Pan law Custom centre drop instead of Constant power, sin/cos",
        "Desk | Custom centre drop 4 dB instead of 3 dB",
      ],
    ],
    [
      movePiece(pieceOf("Kick"), -0.25, 0),
      [
        "Kit | Kick: place 0.25 m left of the throne, 0 m in front instead of 0 m right of the throne, 0.75 m in front",
      ],
    ],
    [
      moveListener("l3", -1.5, -2),
      [
        "Listeners | Tobi, lead vox: place 1.5 m to house left, 2 m behind instead of 0 m to house right, 3 m in front",
      ],
    ],
    [
      editChannel(idOf("Bass"), {
        extra: [
          { head: "Mic", value: "DI" },
          { head: "Stand", value: "low" },
        ],
      }),
      ["Channels | Bass: extra columns Mic: DI, Stand: low instead of none"],
    ],
    [setInput(17, example.monitor.inputs[2] ?? null), ["Inputs | Input 18: “Bass” instead of nothing"]],
  ])("%#: $label", (command, says) => {
    expect(said(example, applied(example, command))).toEqual(says);
  });

  it("says of a channel that is gone what went with it", () => {
    const [first, ...more] = said(example, applied(example, removeChannel(idOf("Bass"))));
    expect(first).toBe("Channels | Bass is not there");
    expect(more).toEqual(["Inputs | Input 3: nothing instead of “Bass”"]);
  });

  it("tells two pans apart that the console prints alike", () => {
    const near = applied(example, dragPan(idOf("Hat"), 0.701));
    expect(said(example, near)).toEqual(["Channels | Hat: pan R70 (0.701) instead of R70 (0.7)"]);
  });

  it("says both inputs when a feed moves", () => {
    const moved = applied(example, moveInput(2, 3));
    expect(said(example, moved)).toEqual([
      "Inputs | Input 3: “Guitar” instead of “Bass”",
      "Inputs | Input 4: “Bass” instead of “Guitar”",
    ]);
  });
});

describe("the words of a difference", () => {
  it("about earphones", () => {
    const ear = applied(example, editEarphone({}));
    expect(said(ear, example)).toEqual(["Earphones | No earphone data"]);
    expect(said(ear, applied(ear, editEarphone({ sensitivity: 112 })))).toEqual([
      "Earphones | Sensitivity 112 dB/mW instead of 108 dB/mW",
    ]);
    expect(said(ear, applied(ear, editEarphone({ sourceImpedance: 8 })))).toEqual([
      "Earphones | Amplifier output impedance 8 Ω instead of 1 Ω",
    ]);
    expect(said(ear, applied(ear, editEarphone({ unit: "dB/V" })))).toEqual([
      "Earphones | Sensitivity 108 dB/V instead of 108 dB/mW",
    ]);
  });

  it("about sums and listeners in another order", () => {
    const two = applied(example, addBus(true, "Horns"));
    expect(said(two, { ...two, buses: [...two.buses].reverse() })).toEqual([
      "Buses | The buses are in another order",
    ]);
    expect(said(example, { ...example, listeners: [...example.listeners].reverse() })).toEqual([
      "Listeners | The listeners are in another order",
    ]);
  });

  it("about things without a name", () => {
    const nameless = applied(example, addChannel(null), editChannel("s19", { name: "" }), addBus(false, ""));
    expect(said(example, nameless)).toEqual([
      "Channels | Unnamed channel is new",
      "Buses | Unnamed bus is new",
    ]);
    expect(said(nameless, applied(nameless, setSend("m1", "s19", {})))).toEqual([
      "Buses | Drums: Unnamed channel is now sent to it",
    ]);
    const listener: Listener = { ...(example.listeners[2] as Listener), id: "l9", name: "" };
    expect(said(example, { ...example, listeners: [...example.listeners, listener] })).toEqual([
      "Listeners | Unnamed listener is new",
    ]);
  });

  it("about things that belong to one without a name, or have lost theirs", () => {
    const unnamed = <T extends { readonly name: string }>(list: readonly T[]): T[] =>
      list.map((thing, at) => (at === 0 ? { ...thing, name: "" } : thing));
    const from: SetupFile = {
      ...example,
      buses: unnamed(example.buses),
      channels: unnamed(example.channels),
      listeners: unnamed(example.listeners),
      preferences: { ...example.preferences, first: (example.listeners[0] as Listener).id },
      kit: { ...example.kit, pieces: unnamed(example.kit.pieces).map((p) => ({ ...p, player: "" })) },
    };
    const [, , singer] = from.listeners as [Listener, Listener, Listener];
    const to: SetupFile = {
      ...from,
      channels: from.channels.map((s) => (s.id === "s1" ? { ...s, piece: null } : s)),
      listeners: from.listeners.map((l) => (l === singer ? { ...l, bus: null } : l)),
      preferences: { ...from.preferences, first: singer.id },
      kit: { ...from.kit, pieces: from.kit.pieces.map((p) => ({ ...p, player: "Mara" })) },
    };
    const all = said(to, from);
    expect(all).toContain(`Listeners | ${singer.name}: hears an unnamed bus instead of no bus`);
    expect(all).toContain("Channels | Unnamed channel: kit piece an unnamed piece instead of none");
    expect(all).toContain("Kit | Hat: played by nobody instead of Mara");
    expect(all).toContain(`Preferences | Who matters most: an unnamed listener instead of “${singer.name}”`);
    const fed = (feed: MonitorInput["feed"]): SetupFile => ({
      ...from,
      monitor: {
        ...from.monitor,
        inputs: [{ feed, port: null, on: true, trim: 0 }, ...from.monitor.inputs.slice(1)],
      },
    });
    const side = fed({ kind: "bus", bus: "m1", side: "left" });
    const direct = fed({ kind: "channel", channel: "s1", side: "both" });
    expect(said(direct, side).join()).toMatch(/an unnamed bus L instead of an unnamed channel/);
    expect(said(example, { ...example, buses: unnamed(example.buses) })).toContain(
      "Buses | Drums: name nothing instead of Drums",
    );
  });
});

describe("the words about what a thing is", () => {
  it("are those of the lists that it is chosen from", () => {
    const floor = {
      ...example,
      kit: { ...example.kit, pieces: example.kit.pieces.map((p) => ({ ...p, kind: "floor" as const })) },
    };
    expect(said(example, floor)).toContain("Kit | Kick: kind Floor tom instead of Kick");
    const talk = applied(example, editChannel("s1", { kind: "talkback" }));
    expect(said(example, talk)).toEqual(["Channels | Kick: kind Talkback instead of Drum"]);
  });
});

describe("the words about a recording", () => {
  const recording = (name: string, rms: number, seconds: number): Recording => ({
    name,
    seconds,
    channels: [measured("s1", { rms })],
    correlation: [[1]],
  });
  const recorded = (name: string, rms = -30, seconds = 9): SetupFile => ({
    ...example,
    recording: recording(name, rms, seconds),
  });

  it("name it", () => {
    expect(said(example, recorded("Rehearsal"))).toEqual([
      "Recording | Measured: figures of “Rehearsal” instead of none",
    ]);
    expect(said(recorded("Rehearsal"), example)).toEqual([
      "Recording | Measured: none instead of figures of “Rehearsal”",
    ]);
    expect(said(recorded("Rehearsal"), recorded("Concert"))).toEqual([
      "Recording | Measured: figures of “Concert” instead of “Rehearsal”",
    ]);
  });

  it("tell two of one name apart by their length and their figures", () => {
    expect(said(recorded("Night"), recorded("Night", -31))).toEqual([
      "Recording | Measured: other figures of “Night”",
    ]);
    expect(said(recorded("Night"), recorded("Night", -30, 4211.27))).toEqual([
      "Recording | Measured: length 70:11.2 instead of 0:09.0",
    ]);
    expect(said(recorded("Night"), recorded("Night", -31, 8))).toEqual([
      "Recording | Measured: length 0:08.0 instead of 0:09.0",
      "Recording | Measured: other figures of “Night”",
    ]);
    expect(said(recorded("Night"), recorded("Concert", -31))).toHaveLength(1);
  });

  it("are none where only the ids of its channels are others", () => {
    const other = JSON.parse(JSON.stringify(recorded("Rehearsal")), (_, value) =>
      value === "s1" ? "x1" : value,
    );
    expect(other.recording.channels[0].channel).toBe("x1");
    expect(said(recorded("Rehearsal"), other)).toEqual([]);
  });
});

describe("a thing is known again", () => {
  const [kick, snare] = example.channels as [Channel, Channel];

  it("by id and name before by name: two of one name that changed places are only in another order", () => {
    const twice = applied(example, editChannel("s2", { name: "Kick" }), dragPan("s2", -1));
    const [first, second, ...rest] = twice.channels as [Channel, Channel, ...Channel[]];
    expect(said(twice, { ...twice, channels: [second, first, ...rest] })).toEqual([
      "Channels | The channels are in another order",
    ]);
    const buses = applied(example, duplicateBus("m1"));
    expect(said(buses, buses)).toEqual([]);
  });

  it("by its name, and what is gone is not what has its id now", () => {
    // The snare is gone, and the kick has its id.
    const without = applied(example, removeChannel("s2"));
    const other = JSON.parse(JSON.stringify(without), (_, value) => (value === kick.id ? snare.id : value));
    const inputs = example.monitor.inputs;
    const feed = { kind: "channel", channel: snare.id, side: "both", tap: "pre-eq" } as const;
    const before = applied(example, setInput(14, { feed, port: null, on: true, trim: 0 }));
    expect(said(before, { ...other, monitor: { ...other.monitor, inputs } })).toEqual([
      "Channels | Snare is not there",
      "Buses | Drums: Snare is no longer sent to it",
      "Inputs | Input 15: nothing instead of “Snare”",
    ]);
  });

  it("never as a stranger, even one that took the id of what is gone", () => {
    const without = applied(example, removeChannel("s9"), removeChannel("s10"));
    const strangers = ["gone s9", "gone s10"].map(
      (id, at): Channel => ({ ...kick, id, name: `Stranger ${at + 1}` }),
    );
    expect(said(example, { ...without, channels: [...without.channels, ...strangers] })).toEqual([
      "Channels | Stranger 1 is new",
      "Channels | Stranger 2 is new",
      "Channels | Bass is not there",
      "Channels | Guitar is not there",
      "Inputs | Input 3: nothing instead of “Bass”",
      "Inputs | Input 4: nothing instead of “Guitar”",
    ]);
  });
});

describe("any two setups", () => {
  const setups = fc.array(commands, { maxLength: 8 }).map((done) => applied(example, ...done));

  /** What a sentence shows of a value that nobody put into words. */
  const SLIPS = /undefined|NaN|\[object|\bnull\b/;
  const texts = (value: unknown): string[] =>
    typeof value === "string" ? [value] : Object.values(value ?? {}).flatMap(texts);
  /** Without names that are such words. */
  const plainlyNamed = setups.filter((file) => !texts(file).some((text) => SLIPS.test(text)));

  it("give whole sentences", () => {
    fc.assert(
      fc.property(plainlyNamed, (b) => {
        for (const says of said(example, b).map((line) => line.replace(/^\w+ \| /, ""))) {
          expect(says).not.toMatch(SLIPS);
          const [, after, before] = /^(.*) instead of (.*)$/su.exec(says) ?? [];
          if (after !== undefined) expect(after.endsWith(`: ${before}`)).toBe(false);
        }
      }),
      { numRuns: 300 },
    );
  });
});
