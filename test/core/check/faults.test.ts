import { describe, expect, it } from "vitest";
import type { Fault } from "../../../src/core/check/faults";
import { faultsOf } from "../../../src/core/check/faults";
import { KINDS } from "../../../src/core/check/kinds";
import { strikesOf } from "../../../src/core/check/strikes";
import type { EarImage } from "../../../src/core/check/wiring";
import { evaluate } from "../../../src/core/evaluate";
import { gainOf } from "../../../src/core/level/decibels";
import type { Bus, Feed, Listener, MonitorInput, Setup } from "../../../src/core/model/setup";
import { panGains } from "../../../src/core/pan/laws";
import { drummer, setupWith } from "./kits";

const busIn = (setup: Setup): Bus => setup.buses[0] as Bus;
const faults = (setup: Setup, listener: Listener = drummer): Fault[] =>
  faultsOf(setup, listener, busIn(setup), strikesOf(setup, busIn(setup)));
const imageOf = (setup: Setup, id: string, piece: string, listener: Listener = drummer): EarImage => {
  const at = strikesOf(setup, busIn(setup)).findIndex((s) => s.piece === piece);
  return faults(setup, listener).find((f) => f.id === id)?.images[at] as EarImage;
};

const setup = setupWith(8, "sine");
// Hat at channel pan 0.6: the pair is patched in reverse, so the drummer has it louder on the left.
const [far, near] = panGains(setup.desk, 0.6);
const input = (feed: Feed, on = true): MonitorInput => ({ feed, on, trim: 0 });
const withInputs = (at: { readonly [index: number]: MonitorInput | null }, from: Setup = setup): Setup => ({
  ...from,
  monitor: {
    ...from.monitor,
    inputs: from.monitor.inputs.map((s, index) => (index in at ? (at[index] ?? null) : s)),
  },
});

describe("faults", () => {
  it("hold every kind of the table, each under its own id", () => {
    const all = faults(setup);
    const off = faults(withInputs({ 2: input({ kind: "bus", bus: "drums", side: "right" }, false) }));
    expect(new Set(off.map((f) => f.kind))).toEqual(new Set(Object.keys(KINDS)));
    expect(off.filter((f) => !all.some((a) => a.id === f.id)).map((f) => f.kind)).toEqual(["switched on"]);
    expect(new Set(all.map((f) => f.id)).size).toBe(all.length);
    expect(all[0]?.kind).toBe("planned");
  });

  it("as planned, are what the image gives this listener", () => {
    for (const listener of [drummer, { ...drummer, flipped: true }, { ...drummer, mono: true }]) {
      const rows = evaluate({ ...setup, listeners: [listener] }).images[0]?.rows ?? [];
      for (const piece of ["kick", "hat", "floor"]) {
        const { sides } = imageOf(setup, "planned", piece, listener);
        expect(sides).toEqual(rows.find((r) => r.channel === piece)?.sides);
      }
    }
  });

  it("as planned, honour the trims and switches of the inputs, as the image does", () => {
    const right: Feed = { kind: "bus", bus: "drums", side: "right" };
    for (const lying of [{ ...input(right), trim: -4 }, input(right, false)]) {
      const so = withInputs({ 2: lying });
      const rows = evaluate(so).images[0]?.rows ?? [];
      for (const piece of ["kick", "hat", "floor"]) {
        const { sides } = imageOf(so, "planned", piece);
        expect(sides).toEqual(rows.find((r) => r.channel === piece)?.sides);
        expect(sides[0]).toBeLessThan(imageOf(setup, "planned", piece).sides[0]);
        expect(imageOf(so, "switched on", piece)?.sides).toEqual(
          lying.on ? undefined : imageOf(setup, "planned", piece).sides,
        );
      }
      // The sides change inputs; the inputs keep their trims and switches.
      expect(imageOf(so, "reversed", "hat").sides).toEqual([
        far * gainOf(lying.trim) * Number(lying.on),
        near,
      ]);
    }
  });

  it.each([
    ["planned", [near, far]],
    ["reversed", [far, near]],
    ["flipped", [far, near]],
    // The right side goes to the left ear.
    ["right side only", [near, 0]],
    ["left side only", [0, far]],
    ["right side in both", [near, near]],
    ["left side in both", [far, far]],
    ["folded", [near + far, near + far]],
    ["left ear dead", [0, far]],
    ["right ear dead", [near, 0]],
    ["silent", [0, 0]],
    ["channel wrong hat", [far, near]],
    ["channel missing hat", [0, 0]],
    ["channel missing kick", [near, far]],
    ["inverted", [near, far]],
    ["all at centre", [Math.SQRT1_2, Math.SQRT1_2]],
  ])("%s: what the ears get of the hat", (id, sides) => {
    const image = imageOf(setup, id, "hat");
    image.sides.forEach((gain, ear) => {
      expect(gain).toBeCloseTo(sides[ear] as number, 12);
    });
    expect(image.inverted).toBe(id === "inverted");
  });

  it("inverts back what is inverted already", () => {
    const turned = { ...setup, buses: [{ ...busIn(setup), sideInverted: [true, false] as const }] };
    expect(imageOf(turned, "planned", "kick").inverted).toBe(true);
    expect(imageOf(turned, "inverted", "kick").inverted).toBe(false);
  });

  it("cancels an inverted middle when it is folded", () => {
    expect(imageOf(setup, "inverted", "kick", { ...drummer, mono: true }).sides).toEqual([0, 0]);
  });

  it("takes one input too high or too low: silence where the neighbours are free", () => {
    // Inputs 3 and 4 carry the right and the left side.
    expect(imageOf(setup, "inputs up", "hat").sides).toEqual([far, 0]);
    expect(imageOf(setup, "inputs down", "hat").sides).toEqual([0, near]);
  });

  it("takes what lies in the neighbouring inputs, if it is on", () => {
    const hat: Feed = { kind: "channel", channel: "hat", side: "both", tap: "pre-fader" };
    expect(imageOf(withInputs({ 4: input(hat) }), "inputs up", "hat").sides).toEqual([far, 1]);
    expect(imageOf(withInputs({ 4: input(hat) }), "inputs up", "snare").sides[1]).toBe(0);
    expect(imageOf(withInputs({ 4: input(hat, false) }), "inputs up", "hat").sides).toEqual([far, 0]);
    expect(imageOf(withInputs({ 1: input(hat) }), "inputs down", "hat").sides).toEqual([1, near]);
    const louder = withInputs({ 4: { ...input(hat), trim: 6 } });
    expect(imageOf(louder, "inputs up", "hat").sides).toEqual([far, gainOf(6)]);
  });

  it("takes a side of another bus next door", () => {
    const other: Bus = { ...busIn(setup), id: "other", trim: -20 * Math.log10(2) };
    const feed: Feed = { kind: "bus", bus: "other", side: "right" };
    const both = withInputs({ 4: input(feed) }, { ...setup, buses: [busIn(setup), other] });
    expect(imageOf(both, "inputs up", "hat").sides[1]).toBeCloseTo(near / 2, 12);
  });

  it("thinks of an unpatched pair as lying between free inputs", () => {
    const bare = withInputs({ 2: null, 3: null });
    expect(imageOf(bare, "inputs up", "hat").sides).toEqual([far, 0]);
    const straight = { ...bare, buses: [{ ...busIn(bare), reversed: false }] };
    expect(imageOf(straight, "inputs up", "hat").sides).toEqual([near, 0]);
  });

  it("of a mono bus are none that need two sides", () => {
    const mono = { ...setup, buses: [{ ...busIn(setup), stereo: false }] };
    const kinds = new Set(faults(mono).map((f) => f.kind));
    expect([...kinds].sort()).toEqual(
      [
        "left ear dead",
        "planned",
        "right ear dead",
        "silent",
        "inputs down",
        "inputs up",
        "channel missing",
      ].sort(),
    );
  });

  it("an overhead missing leaves its side of the kit to the other one: softer, on the other side, not silent", () => {
    const three = setupWith(3, "sine");
    const hat = (id: string) => imageOf(three, id, "hat").sides;
    const [left, right] = hat("planned");
    expect(left / right).toBeCloseTo(10 ** 0.5, 12);
    expect(hat("channel missing overLeft")).toEqual([0, right]);
    expect(hat("channel missing overRight")).toEqual([left, 0]);
    // What lies next to the pair: nothing in one ear, the other side in the other.
    expect(imageOf(three, "inputs up", "hat").sides).toEqual([right, 0]);
  });

  it("of one channel name it, a channel without a name too; all others name the bus", () => {
    const channels = setup.channels.map((s) => (s.id === "hat" ? { ...s, name: "" } : s));
    const all = faults({ ...setup, channels });
    const said = (id: string) => {
      const { channel, name } = all.find((f) => f.id === id) as Fault;
      return [channel, name];
    };
    expect(said("channel missing hat")).toEqual(["hat", "Unnamed channel is missing"]);
    expect(said("channel wrong floor")).toEqual(["floor", "Floor tom is on the wrong side"]);
    expect(said("silent")).toEqual([null, "Nothing of Drums arrives"]);
  });

  it("of one channel are only those that a hit can find", () => {
    const ids = faults(setup).map((f) => f.id);
    expect(ids).not.toContain("channel missing overLeft");
    expect(ids).not.toContain("channel wrong kick");
    expect(faults(setupWith(3, "sine")).map((f) => f.id)).toContain("channel missing overLeft");
  });
});
