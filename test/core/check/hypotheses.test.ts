import { describe, expect, it } from "vitest";
import { FAULTS } from "../../../src/core/check/faults";
import { type Hypothesis, hypothesesOf } from "../../../src/core/check/hypotheses";
import { drumsIn, pickupOf } from "../../../src/core/check/pickup";
import { gainOf } from "../../../src/core/level/decibels";
import type { Action, Bus, Feed, Listener, MonitorInput, Piece, Setup } from "../../../src/core/model/setup";
import { panGains } from "../../../src/core/pan/laws";
import { imagesOf } from "../../../src/core/stereo/image";
import { drummer, setupWith } from "./kits";

const busIn = (setup: Setup): Bus => setup.buses[0] as Bus;
const all = (setup: Setup, listener: Listener = drummer): Hypothesis[] => {
  const pickup = pickupOf(setup);
  return hypothesesOf(setup, listener, busIn(setup), pickup, drumsIn(setup, busIn(setup), pickup));
};
/** Overheads so soft that only close microphones count. */
const NONE = -300;
const imageOf = (
  setup: Setup,
  id: string,
  drum: string,
  more: { listener?: Listener; overheads?: number; action?: Action } = {},
) => {
  const hypothesis = all(setup, more.listener).find((h) => h.id === id);
  const piece = setup.kit.pieces.find((p) => p.id === drum) as Piece;
  if (!hypothesis) throw new Error(`no ${id}`);
  return hypothesis.image(piece, more.overheads ?? NONE, more.action ?? null);
};
const expectSides = (of: { sides: readonly number[] }, sides: readonly number[]): void => {
  of.sides.forEach((gain, ear) => {
    expect(gain).toBeCloseTo(sides[ear] as number, 9);
  });
};

const setup = setupWith(8, "sine");
// Hat at channel pan 0.6: L/R is swapped in the plan, so the drummer has it louder on the left.
const [far, near] = panGains(setup.desk, 0.6);
const input = (feed: Feed, on = true): MonitorInput => ({ feed, port: null, on, trim: 0 });
const withInputs = (at: { readonly [index: number]: MonitorInput | null }, from: Setup = setup): Setup => ({
  ...from,
  monitor: {
    ...from.monitor,
    inputs: from.monitor.inputs.map((s, index) => (index in at ? (at[index] ?? null) : s)),
  },
});
const RIGHT: Feed = { kind: "bus", bus: "drums", side: "right" };

describe("hypotheses", () => {
  it("hold every fault of the table, each under its own id, “planned” first", () => {
    const off = all(withInputs({ 2: input(RIGHT, false) }));
    expect(new Set(off.map((h) => h.fault))).toEqual(new Set(Object.keys(FAULTS)));
    expect(all(setup).map((h) => h.fault)).not.toContain("switched-on");
    expect(new Set(off.map((h) => h.id)).size).toBe(off.length);
    expect(off[0]?.fault).toBe("planned");
  });

  it("as planned, are what the image gives this listener", () => {
    for (const listener of [drummer, { ...drummer, flipped: true }, { ...drummer, mono: true }]) {
      const rows = imagesOf(setup, [listener])[0]?.rows ?? [];
      for (const drum of ["kick", "hat", "floor"])
        expectSides(
          imageOf(setup, "planned", drum, { listener }),
          rows.find((r) => r.channel === drum)?.sides ?? [],
        );
    }
  });

  it("at a mixer in mono are none of folding, and no action makes it louder", () => {
    const listener = { ...drummer, mono: true };
    expect(all(setup, listener).map((h) => h.fault)).not.toContain("folded");
    expectSides(imageOf(setup, "planned", "hat", { listener }), [near + far, near + far]);
    expectSides(imageOf(setup, "planned", "hat", { listener, action: "mono" }), [near + far, near + far]);
  });

  it("as planned, honour the trims and switches of the monitor inputs, which stay where they are", () => {
    for (const lying of [{ ...input(RIGHT), trim: -4 }, input(RIGHT, false)]) {
      const so = withInputs({ 2: lying });
      const gain = gainOf(lying.trim) * Number(lying.on);
      expectSides(imageOf(so, "planned", "hat"), [near * gain, far]);
      expectSides(imageOf(so, "swapped", "hat"), [far * gain, near]);
      if (!lying.on) expectSides(imageOf(so, "switched-on", "hat"), [near, far]);
    }
  });

  it.each([
    ["planned", [near, far]],
    ["swapped", [far, near]],
    ["flipped", [far, near]],
    ["ears-swapped", [far, near]],
    // R goes to the left ear.
    ["right-only", [near, 0]],
    ["left-only", [0, far]],
    ["right-in-both", [near, near]],
    ["left-in-both", [far, far]],
    ["folded", [near + far, near + far]],
    ["left-ear-dead", [0, far]],
    ["right-ear-dead", [near, 0]],
    ["silent", [0, 0]],
    ["wrong-side hat", [far, near]],
    ["missing hat", [0, 0]],
    ["missing kick", [near, far]],
    ["inverted", [near, far]],
    ["all-centred", [Math.SQRT1_2, Math.SQRT1_2]],
    ["overheads-crossed", [near, far]],
    // Inputs 3 and 4 carry R and L; their neighbours are free.
    ["inputs-up", [far, 0]],
    ["inputs-down", [0, near]],
  ])("%s: what the ears get of the hat", (id, sides) => {
    const image = imageOf(setup, id, "hat");
    expectSides(image, sides);
    expect(image.inverted).toBe(id === "inverted");
  });

  it("invert back what is inverted already", () => {
    const turned = { ...setup, buses: [{ ...busIn(setup), sideInverted: [true, false] as const }] };
    expect(imageOf(turned, "planned", "kick").inverted).toBe(true);
    expect(imageOf(turned, "inverted", "kick").inverted).toBe(false);
  });

  it("take what lies in the neighbouring inputs", () => {
    const hat: Feed = { kind: "channel", channel: "hat", side: "both" };
    expectSides(imageOf(withInputs({ 4: input(hat) }), "inputs-up", "hat"), [far, 1]);
    expectSides(imageOf(withInputs({ 1: input(hat) }), "inputs-down", "hat"), [1, near]);
  });

  it("of a mono bus are none that need two sides", () => {
    const mono = { ...setup, buses: [{ ...busIn(setup), stereo: false }] };
    const faults = new Set(all(mono).map((h) => h.fault));
    for (const fault of faults) expect(FAULTS[fault].ofStereo, fault).toBe(false);
    expect(faults).toContain("missing");
  });

  it("of one channel are only those that a hit can find, and touch only drums that sound through it", () => {
    const ids = all(setup).map((h) => h.id);
    expect(ids).not.toContain("wrong-side kick");
    expect(ids).toContain("missing overLeft");
    const touched = (id: string) =>
      setup.kit.pieces
        .filter((p) =>
          all(setup)
            .find((h) => h.id === id)
            ?.touches(p),
        )
        .map((p) => p.id);
    expect(touched("missing hat")).toEqual(["hat"]);
    expect(touched("missing overLeft")).toContain("kick");
    const bare = { ...setup, kit: { ...setup.kit, pieces: setup.kit.pieces.filter((p) => p.id !== "hat") } };
    expect(all(bare).map((h) => h.id)).not.toContain("missing hat");
  });

  it("of overheads: crossed, the crash is on the other side; a missing close microphone leaves them", () => {
    const loud = { overheads: -6 };
    const planned = imageOf(setup, "planned", "crash", loud).sides;
    expect(planned[0]).toBeGreaterThan(2 * planned[1]);
    expectSides(imageOf(setup, "overheads-crossed", "crash", loud), [planned[1], planned[0]]);
    expectSides(imageOf(setup, "missing overLeft", "crash", loud), [0, planned[1]]);
    const [left] = imageOf(setup, "missing hat", "hat", loud).sides;
    expect(20 * Math.log10(left)).toBeCloseTo(-6 - 20 * Math.log10(Math.hypot(0.2, 0.9)), 6);
    const one = { ...setup, channels: setup.channels.filter((s) => s.id !== "overRight") };
    expect(all(one).map((h) => h.fault)).not.toContain("overheads-crossed");
  });
});

describe("with something done before the hit", () => {
  const loud = -6;
  it("muted overheads are gone, for a missing channel and for neighbouring inputs too", () => {
    const action = "mute-overheads";
    expectSides(imageOf(setup, "planned", "hat", { overheads: loud, action }), [near, far]);
    expectSides(imageOf(setup, "planned", "crash", { overheads: loud, action }), [0, 0]);
    expectSides(imageOf(setup, "missing hat", "hat", { overheads: loud, action }), [0, 0]);
    expectSides(imageOf(setup, "inputs-up", "hat", { overheads: loud, action }), [far, 0]);
    expect(imageOf(setup, "inputs-up", "crash", { overheads: loud }).sides[0]).toBeGreaterThan(0);
  });

  it("mono cancels what is centred on an inverted pair, with the overheads muted", () => {
    const inverted = imageOf(setup, "inverted", "kick", { overheads: loud, action: "mono" });
    expectSides(inverted, [0, 0]);
    const planned = imageOf(setup, "planned", "kick", { overheads: loud, action: "mono" });
    expectSides(planned, [Math.SQRT2, Math.SQRT2]);
  });

  it.each([
    // The first input carries R, which goes to the left ear.
    ["planned", "first-input", [near, 0]],
    ["swapped", "first-input", [far, 0]],
    ["flipped", "first-input", [0, near]],
    ["ears-swapped", "first-input", [0, near]],
    ["folded", "first-input", [near, near]],
    ["left-in-both", "first-input", [far, 0]],
    ["planned", "balance-left", [near, 0]],
    ["flipped", "balance-left", [far, 0]],
    ["ears-swapped", "balance-left", [0, near]],
    ["left-ear-dead", "balance-left", [0, 0]],
    ["planned", "balance-right", [0, far]],
    ["right-ear-dead", "balance-right", [0, 0]],
    ["left-in-both", "balance-right", [0, far]],
    ["left-only", "mono", [far, far]],
    ["right-ear-dead", "mono", [near + far, 0]],
    ["planned", "mono", [near + far, near + far]],
    // Folded already, the mono switch adds nothing.
    ["folded", "mono", [near + far, near + far]],
  ] as const)("%s, %s: what the ears get of the hat", (id, action, sides) => {
    expectSides(imageOf(setup, id, "hat", { action }), sides);
  });
});
