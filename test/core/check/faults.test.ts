import { describe, expect, it } from "vitest";
import type { Fault } from "../../../src/core/check/faults";
import { faultsOf } from "../../../src/core/check/faults";
import { KINDS } from "../../../src/core/check/kinds";
import { strikesOf } from "../../../src/core/check/strikes";
import type { EarImage } from "../../../src/core/check/wiring";
import { gainOf } from "../../../src/core/decibels";
import { evaluate } from "../../../src/core/evaluate";
import { panGains } from "../../../src/core/laws";
import type { Feed, Listener, Setup, Slot, Sum } from "../../../src/core/setup";
import { drummer, setupWith } from "./kits";

const sumIn = (setup: Setup): Sum => setup.sums[0] as Sum;
const faults = (setup: Setup, listener: Listener = drummer): Fault[] =>
  faultsOf(setup, listener, sumIn(setup), strikesOf(setup, sumIn(setup)));
const imageOf = (setup: Setup, id: string, piece: string, listener: Listener = drummer): EarImage => {
  const at = strikesOf(setup, sumIn(setup)).findIndex((s) => s.piece === piece);
  return faults(setup, listener).find((f) => f.id === id)?.images[at] as EarImage;
};

const setup = setupWith(8, "sine");
// Hat at house pan 0.6: the pair is patched in reverse, so the drummer has it louder on the left.
const [far, near] = panGains(setup.console, 0.6);
const slot = (feed: Feed, on = true): Slot => ({ feed, on, trim: 0 });
const withSlots = (at: { readonly [index: number]: Slot | null }, from: Setup = setup): Setup => ({
  ...from,
  monitor: {
    ...from.monitor,
    slots: from.monitor.slots.map((s, index) => (index in at ? (at[index] ?? null) : s)),
  },
});

describe("faults", () => {
  it("hold every kind of the table, each under its own id", () => {
    const all = faults(setup);
    const off = faults(withSlots({ 2: slot({ kind: "leg", sum: "drums", leg: "right" }, false) }));
    expect(new Set(off.map((f) => f.kind))).toEqual(new Set(Object.keys(KINDS)));
    expect(off.filter((f) => !all.some((a) => a.id === f.id)).map((f) => f.kind)).toEqual(["switched on"]);
    expect(new Set(all.map((f) => f.id)).size).toBe(all.length);
    expect(all[0]?.kind).toBe("planned");
  });

  it("as planned, are what the image gives this listener", () => {
    for (const listener of [drummer, { ...drummer, flipped: true }, { ...drummer, mono: true }]) {
      const rows = evaluate({ ...setup, listeners: [listener] }).images[0]?.rows ?? [];
      for (const piece of ["kick", "hat", "floor"]) {
        const { legs } = imageOf(setup, "planned", piece, listener);
        expect(legs).toEqual(rows.find((r) => r.source === piece)?.legs);
      }
    }
  });

  it("as planned, honour the trims and switches of the slots, as the image does", () => {
    const right: Feed = { kind: "leg", sum: "drums", leg: "right" };
    for (const lying of [{ ...slot(right), trim: -4 }, slot(right, false)]) {
      const so = withSlots({ 2: lying });
      const rows = evaluate(so).images[0]?.rows ?? [];
      for (const piece of ["kick", "hat", "floor"]) {
        const { legs } = imageOf(so, "planned", piece);
        expect(legs).toEqual(rows.find((r) => r.source === piece)?.legs);
        expect(legs[0]).toBeLessThan(imageOf(setup, "planned", piece).legs[0]);
        expect(imageOf(so, "switched on", piece)?.legs).toEqual(
          lying.on ? undefined : imageOf(setup, "planned", piece).legs,
        );
      }
      // The legs change slots; the slots keep their trims and switches.
      expect(imageOf(so, "reversed", "hat").legs).toEqual([
        far * gainOf(lying.trim) * Number(lying.on),
        near,
      ]);
    }
  });

  it.each([
    ["planned", [near, far]],
    ["reversed", [far, near]],
    ["flipped", [far, near]],
    // The right leg goes to the left ear.
    ["right leg only", [near, 0]],
    ["left leg only", [0, far]],
    ["right leg in both", [near, near]],
    ["left leg in both", [far, far]],
    ["folded", [near + far, near + far]],
    ["left ear dead", [0, far]],
    ["right ear dead", [near, 0]],
    ["silent", [0, 0]],
    ["source wrong hat", [far, near]],
    ["source missing hat", [0, 0]],
    ["source missing kick", [near, far]],
    ["inverted", [near, far]],
    ["all at centre", [Math.SQRT1_2, Math.SQRT1_2]],
  ])("%s: what the ears get of the hat", (id, legs) => {
    const image = imageOf(setup, id, "hat");
    image.legs.forEach((gain, ear) => {
      expect(gain).toBeCloseTo(legs[ear] as number, 12);
    });
    expect(image.inverted).toBe(id === "inverted");
  });

  it("inverts back what is inverted already", () => {
    const turned = { ...setup, sums: [{ ...sumIn(setup), legInverted: [true, false] as const }] };
    expect(imageOf(turned, "planned", "kick").inverted).toBe(true);
    expect(imageOf(turned, "inverted", "kick").inverted).toBe(false);
  });

  it("cancels an inverted middle when it is folded", () => {
    expect(imageOf(setup, "inverted", "kick", { ...drummer, mono: true }).legs).toEqual([0, 0]);
  });

  it("takes one slot too high or too low: silence where the neighbours are free", () => {
    // Slots 3 and 4 carry the right and the left leg.
    expect(imageOf(setup, "slots up", "hat").legs).toEqual([far, 0]);
    expect(imageOf(setup, "slots down", "hat").legs).toEqual([0, near]);
  });

  it("takes what lies in the neighbouring slots, if it is on", () => {
    const hat: Feed = { kind: "source", source: "hat", channel: "both", tap: "before-fader" };
    expect(imageOf(withSlots({ 4: slot(hat) }), "slots up", "hat").legs).toEqual([far, 1]);
    expect(imageOf(withSlots({ 4: slot(hat) }), "slots up", "snare").legs[1]).toBe(0);
    expect(imageOf(withSlots({ 4: slot(hat, false) }), "slots up", "hat").legs).toEqual([far, 0]);
    expect(imageOf(withSlots({ 1: slot(hat) }), "slots down", "hat").legs).toEqual([1, near]);
    const louder = withSlots({ 4: { ...slot(hat), trim: 6 } });
    expect(imageOf(louder, "slots up", "hat").legs).toEqual([far, gainOf(6)]);
  });

  it("takes a leg of another sum next door", () => {
    const other: Sum = { ...sumIn(setup), id: "other", trim: -20 * Math.log10(2) };
    const feed: Feed = { kind: "leg", sum: "other", leg: "right" };
    const both = withSlots({ 4: slot(feed) }, { ...setup, sums: [sumIn(setup), other] });
    expect(imageOf(both, "slots up", "hat").legs[1]).toBeCloseTo(near / 2, 12);
  });

  it("thinks of an unpatched pair as lying between free slots", () => {
    const bare = withSlots({ 2: null, 3: null });
    expect(imageOf(bare, "slots up", "hat").legs).toEqual([far, 0]);
    const straight = { ...bare, sums: [{ ...sumIn(bare), reversed: false }] };
    expect(imageOf(straight, "slots up", "hat").legs).toEqual([near, 0]);
  });

  it("of a mono sum are none that need two legs", () => {
    const mono = { ...setup, sums: [{ ...sumIn(setup), stereo: false }] };
    const kinds = new Set(faults(mono).map((f) => f.kind));
    expect([...kinds].sort()).toEqual(
      [
        "left ear dead",
        "planned",
        "right ear dead",
        "silent",
        "slots down",
        "slots up",
        "source missing",
      ].sort(),
    );
  });

  it("an overhead missing leaves its side of the kit to the other one: softer, on the other side, not silent", () => {
    const three = setupWith(3, "sine");
    const hat = (id: string) => imageOf(three, id, "hat").legs;
    const [left, right] = hat("planned");
    expect(left / right).toBeCloseTo(10 ** 0.5, 12);
    expect(hat("source missing overLeft")).toEqual([0, right]);
    expect(hat("source missing overRight")).toEqual([left, 0]);
    // What lies next to the pair: nothing in one ear, the other leg in the other.
    expect(imageOf(three, "slots up", "hat").legs).toEqual([right, 0]);
  });

  it("of one source name it, a source without a name too; all others name the sum", () => {
    const sources = setup.sources.map((s) => (s.id === "hat" ? { ...s, name: "" } : s));
    const all = faults({ ...setup, sources });
    const said = (id: string) => {
      const { source, name } = all.find((f) => f.id === id) as Fault;
      return [source, name];
    };
    expect(said("source missing hat")).toEqual(["hat", "Unnamed source is missing"]);
    expect(said("source wrong floor")).toEqual(["floor", "Floor tom is on the wrong side"]);
    expect(said("silent")).toEqual([null, "Nothing of Drums arrives"]);
  });

  it("of one source are only those that a hit can find", () => {
    const ids = faults(setup).map((f) => f.id);
    expect(ids).not.toContain("source missing overLeft");
    expect(ids).not.toContain("source wrong kick");
    expect(faults(setupWith(3, "sine")).map((f) => f.id)).toContain("source missing overLeft");
  });
});
