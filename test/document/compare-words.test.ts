import { describe, expect, it } from "vitest";
import type { Channel, Listener, MonitorInput, Recording } from "../../src/core/model/setup";
import { addBus, duplicateBus, setSend } from "../../src/document/commands/buses";
import { addChannel, dragPan, editChannel, removeChannel } from "../../src/document/commands/channels";
import { setInput } from "../../src/document/commands/inputs";
import { editEarphone } from "../../src/document/commands/settings";
import { differences } from "../../src/document/compare";
import type { SetupFile } from "../../src/document/schema";
import { bandSetup } from "./band";
import { applied } from "./commands";
import { measured } from "./measured";

const example = bandSetup();
const said = (from: SetupFile, to: SetupFile): string[] =>
  differences(from, to).map(({ part, says }) => `${part} | ${says}`);

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
