import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ControlCode, controlKey } from "../../../src/core/inputs/controls";
import { controlsOf, UNSET } from "../../../src/core/inputs/controls-of";
import { type DeskMove, deskList, deskMoves, deskParts, kinshipOf } from "../../../src/core/inputs/desk-list";
import type { Channel, Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, listener, setup, side } from "./setups";

const numbered = (id: string, number: number, more: Partial<Channel> = {}) =>
  channel(id, { numbers: [number], ...more });

const band = (): Setup =>
  setup(
    [
      numbered("keys", 9, { lines: 2, numbers: [9, 10] }),
      numbered("kick", 1, { pan: 0.25 }),
      numbered("hat", 2),
      channel("guest"),
    ],
    [bus("drums", ["kick", "hat"], { numbers: [5, 6] })],
    [
      side("drums", "left", { port: 2 }),
      side("drums", "right", { port: 1 }),
      direct("keys", "left"),
      direct("keys", "right", { trim: -3 }),
    ],
    16,
    [listener("mara", { kind: "drummer", bus: "drums", flipped: true })],
  );

const says = (moves: readonly DeskMove[]) =>
  moves.map((m) => [m.control, m.id, m.bus, m.to].filter((part) => part !== "") as unknown[]);

describe("from nothing", () => {
  it("lists what is to be set in the order of a hand: channels by number, buses, ports, mixers", () => {
    const send = { on: true, level: 0, tap: "post-fader", pan: null };
    const out = { tap: "pre-fader", on: true, trim: 0 };
    const drums = (left: "left" | "right") => ({ kind: "bus", bus: "drums", side: left });
    const keys = (left: "left" | "right") => ({ kind: "channel", channel: "keys", side: left });
    expect(says(deskList(band()))).toEqual([
      ["pan", "kick", 0.25],
      ["send", "kick", "drums", send],
      ["send", "hat", "drums", send],
      ["channel stereo", "keys", true],
      ["direct out", "keys", out],
      ["bus stereo", "drums", true],
      ["bus fader", "drums", 0],
      ["input feed", "1", { feed: drums("right"), port: 1 }],
      ["input feed", "0", { feed: drums("left"), port: 2 }],
      ["input feed", "2", { feed: keys("left"), port: null }],
      ["input feed", "3", { feed: keys("right"), port: null }],
      ["input trim", "3", -3],
      ["hears", "mara", "drums"],
      ["flip", "mara", true],
    ]);
  });

  it("knows no value before, and needs none", () => {
    expect(deskList(band()).every((m) => m.from === null)).toBe(true);
  });

  it("goes bank by bank, in the desk’s own size", () => {
    const sections = (bankSize: number) => {
      const of = band();
      const to = { ...of, desk: { ...of.desk, bankSize, channelCount: 10 } };
      return deskParts(null, to, deskList(to)).map((p) => p.section);
    };
    const rest = [{ at: "buses" }, { at: "outputs" }, { at: "monitor system" }, { at: "mixers" }];
    expect(sections(8)).toEqual([
      { at: "bank", first: 1, last: 8 },
      { at: "bank", first: 9, last: 10 },
      ...rest,
    ]);
    expect(sections(12)).toEqual([{ at: "bank", first: 1, last: 10 }, ...rest]);
  });

  it("puts what feeds an input at the desk’s ports, and the switch and trim of the input at the monitor system", () => {
    const of = band();
    const to = {
      ...of,
      monitor: {
        ...of.monitor,
        inputs: of.monitor.inputs.map((i, at) => i && { ...i, port: 20 - at, on: false, trim: -2 }),
      },
    };
    const parts = deskParts(of, to, deskMoves(of, to));
    const lines = (at: string) =>
      parts.find((p) => p.section.at === at)?.moves.map((m) => `${m.control} ${m.id}`) ?? [];
    const taken = of.monitor.inputs.flatMap((i, at) => (i ? [String(at)] : []));
    expect(lines("outputs")).toEqual([...taken].reverse().map((id) => `input feed ${id}`));
    // By the inputs, as they stand there, whatever port feeds them.
    const there = lines("monitor system");
    expect(there.map((line) => Number(line.split(" ").at(-1)))).toEqual(
      taken.flatMap((id) => there.filter((line) => line.endsWith(` ${id}`)).map(() => Number(id))),
    );
    expect(new Set(there.map((line) => line.replace(/ \d+$/, "")))).toEqual(
      new Set(["input on", "input trim"]),
    );
  });

  it("puts channels without a number behind all banks, and one beyond the desk into a whole bank", () => {
    const of = band();
    const more = (c: Channel): Channel =>
      c.id === "guest" ? { ...c, muted: true } : c.id === "hat" ? { ...c, numbers: [55] } : c;
    const to = { ...of, channels: of.channels.map(more) };
    const parts = deskParts(null, to, deskList(to));
    expect(parts.map((p) => p.section).slice(0, 4)).toEqual([
      { at: "bank", first: 1, last: 8 },
      { at: "bank", first: 9, last: 16 },
      { at: "bank", first: 49, last: 56 },
      { at: "unnumbered" },
    ]);
  });

  it("leaves a fader to FOH where nothing is taken behind it", () => {
    const at = (tap: "pre-fader" | "post-fader") => {
      const of = band();
      return deskList({
        ...of,
        channels: of.channels.map((c) => ({ ...c, fader: -7 })),
        buses: of.buses.map((b) => ({ ...b, sends: b.sends.map((s) => ({ ...s, tap })) })),
      }).filter((m) => m.control === "fader");
    };
    expect(at("pre-fader")).toEqual([]);
    expect(at("post-fader").map((m) => m.id)).toEqual(["kick", "hat"]);
  });

  it("asks nothing of a direct out that no input takes", () => {
    expect(
      deskList(band())
        .filter((m) => m.control === "direct out")
        .map((m) => m.id),
    ).toEqual(["keys"]);
  });
});

const withChannel = (of: Setup, id: string, more: Partial<Channel>): Setup => ({
  ...of,
  channels: of.channels.map((c) => (c.id === id ? { ...c, ...more } : c)),
});

describe("only what differs", () => {
  it("is nothing between a setup and itself", () => {
    expect(deskMoves(band(), band())).toEqual([]);
  });

  it("names the one control, with both its values", () => {
    const [from] = [band()];
    const out = { tap: "pre-eq", on: true, trim: 0 } as const;
    expect(deskMoves(from, withChannel(from, "keys", { directOut: out }))).toEqual([
      {
        control: "direct out",
        id: "keys",
        bus: "",
        from: { tap: "pre-fader", on: true, trim: 0 },
        to: out,
      },
    ]);
  });

  it("says that a channel lies elsewhere now", () => {
    expect(says(deskMoves(band(), withChannel(band(), "hat", { numbers: [4] })))).toEqual([
      ["channel number", "hat", [4]],
    ]);
  });

  it("switches off what still feeds somebody, unless another has taken its channel number", () => {
    const from = band();
    const without = { ...from, channels: from.channels.filter((c) => c.id !== "hat") };
    const after = {
      ...without,
      buses: without.buses.map((b) => ({ ...b, sends: b.sends.filter((s) => s.channel !== "hat") })),
    };
    expect(says(deskMoves(from, after))).toEqual([["send", "hat", "drums", UNSET.send]]);
    const taken = { ...after, channels: [...after.channels, numbered("ride", 2)] };
    expect(deskMoves(from, taken)).toEqual([]);
  });

  it("asks nothing of a bus that is no more but to free its inputs", () => {
    const from = band();
    const after: Setup = {
      ...from,
      buses: [],
      listeners: from.listeners.map((l) => ({ ...l, bus: null })),
      monitor: {
        ...from.monitor,
        inputs: from.monitor.inputs.map((i) => (i?.feed.kind === "bus" ? null : i)),
      },
    };
    expect(says(deskMoves(from, after))).toEqual([
      ["input feed", "1", null],
      ["input feed", "0", null],
      ["hears", "mara", null],
    ]);
  });

  it("of a new channel lists what is not as a desk begins", () => {
    const from = band();
    const after = {
      ...from,
      channels: [...from.channels, numbered("ride", 3)],
      buses: [bus("drums", ["kick", "hat", "ride"], { numbers: [5, 6] })],
    };
    expect(says(deskMoves(from, after)).map(([control, id]) => [control, id])).toEqual([["send", "ride"]]);
  });
});

describe("since the last ticks", () => {
  const standing = (of: Setup) =>
    controlsOf(of).filter(
      (c) => c.control === "direct out" || c.control === "input feed" || c.control === "pan",
    );

  it("what stands as planned is listed with its value in both places, and nothing is added", () => {
    const moves = deskList(band(), standing(band()));
    expect(moves.map(controlKey)).toEqual(deskList(band()).map(controlKey));
    expect(moves.filter((m) => m.control === "pan").map((m) => [m.from, m.to])).toEqual([[0.25, 0.25]]);
    expect(moves.filter((m) => m.control === "bus fader").map((m) => m.from)).toEqual([null]);
  });

  it("what was changed after it was ticked is listed with what it stands at", () => {
    const after = withChannel(band(), "kick", { pan: 0 });
    const moves = deskList(after, standing(band()));
    expect(moves.filter((m) => m.control === "pan").map((m) => [m.id, m.from, m.to])).toEqual([
      ["kick", 0.25, 0],
    ]);
  });

  it("an input that was patched and is free now is to be freed", () => {
    const from = band();
    const after = { ...from, monitor: { ...from.monitor, inputs: from.monitor.inputs.slice(0, 3) } };
    const freed = deskList(after, standing(from)).filter((m) => m.id === "3");
    expect(freed.map((m) => [m.control, m.to])).toEqual([["input feed", null]]);
  });
});

const A_CHANGE = fc.record({
  id: fc.constantFrom("keys", "kick", "hat", "guest"),
  more: fc.record(
    {
      muted: fc.boolean(),
      inverted: fc.boolean(),
      pan: fc.constantFrom(-1, 0, 0.5),
      fader: fc.constantFrom(null, 0, -3),
      directOut: fc.record({
        tap: fc.constantFrom("pre-hpf" as const, "post-fader" as const),
        on: fc.boolean(),
        trim: fc.constantFrom(0, -2),
      }),
    },
    { requiredKeys: [] },
  ),
});
const A_SETUP = fc
  .array(A_CHANGE, { maxLength: 5 })
  .map((changes) => changes.reduce((of, { id, more }) => withChannel(of, id, more), band()));

it("made one after the other on the controls before, the moves give the controls after", () => {
  fc.assert(
    fc.property(A_SETUP, A_SETUP, (from, to) => {
      const all = (of: Setup) =>
        new Map<string, unknown>(controlsOf(of).map((c) => [controlKey(c), c.value]));
      const now = all(from);
      for (const m of deskMoves(from, to)) {
        expect(now.get(controlKey(m))).toEqual(m.from);
        now.set(controlKey(m), m.to);
      }
      expect(now).toEqual(all(to));
    }),
  );
});

it("every kind of control that is set off its rest is listed once", () => {
  const of = band();
  const [drums] = of.buses;
  if (!drums) throw new Error("no bus");
  const full: Setup = {
    ...withChannel(of, "kick", { inverted: true, muted: true, fader: -2 }),
    buses: [
      {
        ...drums,
        folded: true,
        trim: -1,
        sideTrim: [0, -1],
        sideInverted: [true, false],
        padDb: 10,
      },
    ],
    monitor: { ...of.monitor, inputs: of.monitor.inputs.map((i) => i && { ...i, on: false }) },
    listeners: of.listeners.map((l) => ({ ...l, mono: true })),
  };
  const codes = new Set(deskList(full).map((m) => m.control));
  const all = Object.keys(UNSET) as ControlCode[];
  expect(all.filter((code) => !codes.has(code))).toEqual(["channel number", "bus number"]);
  const keys = deskList(full).map(controlKey);
  expect(new Set(keys).size).toBe(keys.length);
});

describe("setups of different bands", () => {
  const named = (...names: string[]): Setup =>
    setup(
      names.map((name, at) => channel(`s${at}`, { name })),
      [],
      [],
    );

  it("are told by the names of their channels, not by ids or case", () => {
    expect(kinshipOf(named("Kick", "Bass", "Lead vox"), named("kick ", "BASS", "Lead vox", "Horn"))).toEqual({
      shared: 3,
      all: 4,
      isUnrelated: false,
    });
    expect(kinshipOf(named("Kick", "Bass", "Lene"), named("Kick", "Cello", "Viola"))).toEqual({
      shared: 1,
      all: 5,
      isUnrelated: true,
    });
  });

  it("an empty setup is no other band", () => {
    expect(kinshipOf(named(), named("Kick")).isUnrelated).toBe(false);
  });
});
