import { describe, expect, it } from "vitest";
import { withBusSwapped } from "../../../src/core/mix/pair-order";
import type { Bus, Channel, Id, Listener, MonitorInput, Setup } from "../../../src/core/model/setup";
import { imagesOf } from "../../../src/core/stereo/image";
import { type ImageVerdict, imageVerdict } from "../../../src/core/stereo/verdict";
import { exampleSetup } from "../../../src/document/example";
import { describeImage } from "../../../src/text/image";
import { MONITOR_REST } from "../desk";
import { channel, DRUMMER, kit, listener, randomSetup, side, withChannel } from "../recommend/setups";

const verdict = (setup: Setup, id: Id): ImageVerdict => {
  const at = setup.listeners.findIndex((l) => l.id === id);
  const image = imagesOf(setup)[at];
  if (!image) throw new Error(`no ${id}`);
  return imageVerdict(setup, setup.listeners[at] as Listener, image);
};
const codeOf = (setup: Setup, id: Id) => verdict(setup, id).code;
const withBus = (setup: Setup, over: Partial<Bus>): Setup => ({
  ...setup,
  buses: setup.buses.map((s, at) => (at === 0 ? { ...s, ...over } : s)),
});
const only = (listeners: readonly Listener[], setup = kit()): Setup => ({ ...setup, listeners });
const panned = (change: (s: Channel) => number): Setup => ({
  ...kit(),
  channels: kit().channels.map((s) => ({ ...s, pan: change(s) })),
});
const swapped = (setup: Setup): Setup => withBusSwapped(setup, setup.buses[0] as Bus);

describe("what a listener gets, judged", () => {
  it("counts the drums without a place at the kit, and no other channel without one", () => {
    const drum = withChannel(swapped(kit()), channel("clap", { kind: "drum", piece: null, pan: 0.5 }));
    expect(verdict(drum, "mara")).toMatchObject({ code: "right", unplaced: 1, drumsUnplaced: 1 });
    const vox = withChannel(swapped(kit()), channel("vox", { kind: "vocal", piece: null, pan: 0.5 }));
    expect(verdict(vox, "mara")).toMatchObject({ code: "right", unplaced: 1, drumsUnplaced: 0 });
    expect(verdict(drum, "audience").drumsUnplaced).toBe(0);
    const [mara, image] = [DRUMMER, imagesOf(drum).find((i) => i.listener === DRUMMER.id)];
    if (!image) throw new Error("no image");
    expect(describeImage(drum, mara, image).tone).toBe("care");
  });

  it("swapped, right, and the worked example", () => {
    expect(verdict(kit(), "mara")).toMatchObject({
      code: "swapped",
      bus: "m1",
      wrong: ["hat", "tom", "floor", "ride"],
      centred: [],
      sidesLost: [],
      unplaced: 0,
      unassigned: false,
      off: null,
      heardIn: [true, true],
    });
    expect(verdict(kit(), "mara").placed).toHaveLength(5);
    expect(codeOf(swapped(kit()), "mara")).toBe("right");
    expect(verdict(kit(), "audience")).toMatchObject({ code: "right", hears: "foh", bus: null });
    const example = exampleSetup();
    expect(example.listeners.map((l) => codeOf(example, l.id))).toEqual([
      "right",
      "swapped",
      "swapped",
      "side-on",
      "swapped",
      "right",
    ]);
  });

  it("some wrong, some centred", () => {
    const one = panned((s) => (s.id === "hat" ? -0.7 : s.pan));
    expect(verdict(one, "audience")).toMatchObject({ code: "mixed up", wrong: ["hat"] });
    const centred = panned((s) => (s.id === "hat" ? 0 : s.pan));
    expect(verdict(centred, "audience")).toMatchObject({
      code: "partly centred",
      centred: ["hat"],
      wrong: [],
    });
  });

  it("with as many wrong as right it is mixed up; what stands in the centre does not count", () => {
    const two = panned((s) => (s.id === "hat" || s.id === "ride" ? s.pan : -s.pan));
    expect(codeOf(two, "mara")).toBe("mixed up");
    const three = panned((s) => (s.id === "hat" ? -s.pan : s.pan));
    expect(codeOf(three, "mara")).toBe("swapped");
    // Three of the four at a side, and two in the centre.
    const six = withChannel(three, channel("kick2", { piece: "kick" }));
    expect(verdict(six, "mara")).toMatchObject({ code: "swapped", wrong: ["tom", "floor", "ride"] });
    expect(verdict(six, "mara").placed).toHaveLength(6);
  });

  it("the audience gets FOH, whatever becomes of a bus that it is said to hear", () => {
    const [audience, ...others] = kit().listeners as [Listener, ...Listener[]];
    const setup = only([{ ...audience, bus: "m1" }, ...others]);
    const inputs = setup.monitor.inputs.map((input) => input && { ...input, on: false });
    for (const over of [
      withBus(setup, { stereo: false }),
      { ...setup, monitor: { ...setup.monitor, inputs } },
      { ...setup, monitor: { ...setup.monitor, inputs: [] } },
    ])
      expect(verdict(over, "audience")).toMatchObject({ code: "right", off: null, unassigned: false });
  });

  it("side-on, no bus, nothing sent, everything muted", () => {
    expect(codeOf(only([listener("rafi", { facing: 90 })]), "rafi")).toBe("side-on");
    expect(verdict(only([{ ...DRUMMER, bus: null }]), "mara")).toMatchObject({ code: "no bus", bus: null });
    expect(codeOf(withBus(kit(), { sends: [] }), "mara")).toBe("silent");
    const muted = { ...kit(), channels: kit().channels.map((s) => ({ ...s, muted: true })) };
    expect(["mara", "audience"].map((id) => codeOf(muted, id))).toEqual(["silent", "silent"]);
  });

  it("mono at the mixer before a mono bus, before one that is folded", () => {
    const mono = only([{ ...DRUMMER, mono: true }]);
    expect(codeOf(withBus(mono, { stereo: false }), "mara")).toBe("mono mixer");
    expect(codeOf(withBus(kit(), { stereo: false, folded: true }), "mara")).toBe("mono bus");
    expect(codeOf(withBus(kit(), { folded: true }), "mara")).toBe("folded bus");
  });

  it("all centred, and where that is right", () => {
    const centre = panned(() => 0);
    expect(verdict(centre, "mara")).toMatchObject({
      code: "all centred",
      centred: ["hat", "tom", "floor", "ride"],
    });
    const pieces = centre.kit.pieces.map((p) => ({ ...p, x: 0.05 }));
    expect(codeOf({ ...centre, kit: { ...centre.kit, pieces } }, "mara")).toBe("all belong in the centre");
  });

  it("one channel only, none placed, some not placed", () => {
    const one = withBus(kit(), {
      sends: [{ channel: "hat", on: true, level: 0, tap: "post-fader" as const, pan: null }],
    });
    expect(verdict(one, "mara").placed.map((r) => [r.channel, r.placement])).toEqual([["hat", "wrong"]]);
    expect(codeOf(one, "mara")).toBe("one placed");
    const nowhere = { ...kit(), channels: kit().channels.map((s) => ({ ...s, piece: null })) };
    expect(["mara", "audience"].map((id) => codeOf(nowhere, id))).toEqual([
      "nothing placed",
      "nothing placed",
    ]);
    const click = withChannel(kit(), channel("click"));
    expect(verdict(click, "mara").unplaced).toBe(1);
    // At FOH there is always something without a place, a vocal or keys: none count.
    expect(verdict(click, "audience").unplaced).toBe(0);
  });

  it("L/R lost, and a bus in no input", () => {
    const keys = withChannel(kit(), channel("keys", { lines: 2, keepSides: true }));
    expect(verdict(keys, "mara").sidesLost).toEqual([]);
    expect(verdict(swapped(keys), "mara").sidesLost).toEqual(["keys"]);
    const monitor = { inputCount: 8, inputs: [], maxInputDbu: 20, ...MONITOR_REST };
    expect(verdict(kit({ monitor }), "mara").unassigned).toBe(true);
    for (const one of ["left", "right"] as const)
      expect(verdict(kit({ monitor: { ...monitor, inputs: [side("m1", one)] } }), "mara").unassigned).toBe(
        false,
      );
  });
});

const L = side("m1", "left");
const R = side("m1", "right", -6);
const off = (input: MonitorInput): MonitorInput => ({ ...input, on: false });
/** The hat hard at a side, the kick in both. */
const apart = (pan: number) => [
  { channel: "hat", on: true, level: 0, tap: "post-fader" as const, pan },
  { channel: "kick", on: true, level: 0, tap: "post-fader" as const, pan: 0 },
];

describe("a side that is off", () => {
  it.each([
    [[off(L), R], {}, {}, ["left"], [0], "right", [false, true]],
    [[R, off(L)], {}, {}, ["left"], [1], "right", [true, false]],
    [[L, off(R)], {}, {}, ["right"], [1], "left", [true, false]],
    [[L, off(R)], {}, { flipped: true }, ["right"], [1], "left", [false, true]],
    [[L, off(R)], {}, { mono: true }, ["right"], [1], "left", [true, true]],
    [[null, off(R), off(L)], {}, {}, ["left", "right"], [1, 2], null, [false, false]],
    [[null, off(L)], { stereo: false }, {}, ["left"], [1], null, [false, false]],
    // The hat is panned away from the side that is left; the rest is still heard.
    [[L, off(R)], { sends: apart(1) }, {}, ["right"], [1], "left", [true, false]],
    [[off(L), R], { sends: apart(-1) }, {}, ["left"], [0], "right", [false, true]],
    // All that is left is panned to the other side.
    [
      [L, off(R)],
      { sends: [{ channel: "hat", on: true, level: 0, tap: "post-fader" as const, pan: 1 }] },
      {},
      ["right"],
      [1],
      "left",
      [false, false],
    ],
  ] as const)("%#", (inputs, bus, mara, sides, offInputs, remains, heardIn) => {
    const setup = withBus(kit({ monitor: { inputCount: 8, inputs, maxInputDbu: 20, ...MONITOR_REST } }), bus);
    expect(verdict(only([{ ...DRUMMER, ...mara }], setup), "mara")).toMatchObject({
      code: "switched off",
      off: { sides, inputs: offInputs, remains },
      heardIn,
    });
  });
});

it("counts every row once, in every random setup", () => {
  for (let seed = 0; seed < 500; seed += 1) {
    const setup = randomSetup(seed);
    const images = imagesOf(setup);
    setup.listeners.forEach(({ id }, at) => {
      const { placed, wrong, centred } = verdict(setup, id);
      const count = images[at]?.count;
      expect([wrong.length, centred.length]).toEqual([count?.wrong, count?.centred]);
      expect(placed.length).toBe((count?.right ?? 0) + wrong.length + centred.length);
    });
  }
});
