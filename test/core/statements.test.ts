import { describe, expect, it } from "vitest";
import { imagesOf } from "../../src/core/image";
import { withPairSwapped } from "../../src/core/patched";
import type { Listener, Setup, Source, Sum } from "../../src/core/setup";
import { imageStatement } from "../../src/core/statements";
import { exampleSetup } from "../../src/document/example";
import { DRUMMER, kit, listener, randomSetup, source, withSource } from "./repair/setups";

const said = (setup: Setup, id: string) => {
  const at = setup.listeners.findIndex((l) => l.id === id);
  const image = imagesOf(setup)[at];
  if (!image) throw new Error(`no ${id}`);
  return imageStatement(setup, setup.listeners[at] as Listener, image);
};
const withSum = (setup: Setup, over: Partial<Sum>): Setup => ({
  ...setup,
  sums: setup.sums.map((s, at) => (at === 0 ? { ...s, ...over } : s)),
});
const only = (listeners: readonly Listener[], setup = kit()): Setup => ({ ...setup, listeners });
const panned = (change: (s: Source) => number): Setup => ({
  ...kit(),
  sources: kit().sources.map((s) => ({ ...s, pan: change(s) })),
});
const swapped = (setup: Setup): Setup => withPairSwapped(setup, setup.sums[0] as Sum);

describe("one line on what a listener gets", () => {
  it("reversed, right, and the worked example", () => {
    expect(said(kit(), "mara")).toEqual({
      tone: "wrong",
      says: "Reversed for Mara: 4 of 5 on the wrong side",
      more: "Wrong: HAT, TOM, FLOOR and RIDE.",
    });
    expect(said(swapped(kit()), "mara")).toEqual({
      tone: "fine",
      says: "Correct for Mara: every side agrees",
      more: "",
    });
    expect(said(kit(), "audience").says).toBe("Correct for the audience: every side agrees");
    const drummer = only([{ ...DRUMMER, name: "Drummer" }]);
    expect(said(drummer, "mara").says).toBe("Reversed for the drummer: 4 of 5 on the wrong side");
    const example = exampleSetup();
    expect(example.listeners.map((l) => said(example, l.id).says)).toEqual([
      "Correct for the audience: every side agrees",
      "Reversed for Mara: 7 of 8 on the wrong side",
      "Reversed for Tobi: 7 of 8 on the wrong side",
      "Lene stands side-on to the kit: left and right mean nothing from there",
      expect.stringMatching(/^Reversed for Ravi: \d of 8 on the wrong side$/),
      "Correct for Ines: every side agrees",
    ]);
  });

  it("some wrong, some flat", () => {
    const one = panned((s) => (s.id === "hat" ? -0.7 : s.pan));
    expect(said(one, "audience")).toEqual({
      tone: "wrong",
      says: "Mixed up for the audience: 1 of 5 on the wrong side",
      more: "Wrong: HAT.",
    });
    const flat = panned((s) => (s.id === "hat" ? 0 : s.pan));
    expect(said(flat, "audience")).toEqual({
      tone: "care",
      says: "Correct for the audience, but 1 of 5 has no clear side",
      more: "HAT: heard in the middle, or off it without standing there.",
    });
    const two = panned((s) => (s.id === "hat" || s.id === "ride" ? 0 : s.pan));
    expect(said(two, "audience").says).toBe("Correct for the audience, but 2 of 5 have no clear side");
  });

  it("the audience gets the house, whatever becomes of a sum that it is said to hear", () => {
    const [audience, ...others] = kit().listeners as [Listener, ...Listener[]];
    const setup = only([{ ...audience, sum: "m1" }, ...others]);
    const slots = setup.monitor.slots.map((slot) => slot && { ...slot, on: false });
    for (const over of [
      withSum(setup, { stereo: false }),
      { ...setup, monitor: { ...setup.monitor, slots } },
      { ...setup, monitor: { ...setup.monitor, slots: [] } },
    ])
      expect(said(over, "audience")).toEqual({
        tone: "fine",
        says: "Correct for the audience: every side agrees",
        more: "",
      });
  });

  it("side-on", () => {
    const setup = only([listener("rafi", { name: "Rafi", facing: 90 })]);
    expect(said(setup, "rafi")).toEqual({
      tone: "care",
      says: "Rafi stands side-on to the kit: left and right mean nothing from there",
      more: "No patch and no pan is right or wrong for this place.",
    });
  });

  it("no sum, an empty sum, everything muted", () => {
    expect(said(only([{ ...DRUMMER, sum: null }]), "mara")).toEqual({
      tone: "care",
      says: "Mara hears no sum",
      more: "Choose which sum is heard.",
    });
    const nothing = {
      tone: "care",
      says: "Nothing sounds in Drums",
      more: "Send a source into it that is not muted.",
    };
    expect(said(withSum(kit(), { sends: [] }), "mara")).toEqual(nothing);
    const muted = { ...kit(), sources: kit().sources.map((s) => ({ ...s, muted: true })) };
    expect(said(muted, "mara")).toEqual(nothing);
    expect(said(muted, "audience")).toEqual({
      tone: "care",
      says: "Nothing is heard in the house",
      more: "Every source is muted, or there is none.",
    });
  });

  it("a sum in no slot says that it is not patched yet", () => {
    const setup = kit({ monitor: { slotCount: 8, slots: [], inputMaxDbu: 20 } });
    expect(said(setup, "mara").more).toBe(
      "Wrong: HAT, TOM, FLOOR and RIDE. Drums is in no slot yet: this is what will be heard once it is patched.",
    );
  });

  it("mono, folded, both legs in one", () => {
    expect(said(withSum(kit(), { stereo: false }), "mara")).toEqual({
      tone: "care",
      says: "Drums is mono: no sides for Mara",
      more: "",
    });
    expect(said(withSum(kit(), { folded: true }), "mara").says).toBe(
      "Drums is folded to mono: no sides for Mara",
    );
    expect(said(only([{ ...DRUMMER, mono: true }]), "mara").says).toBe(
      "Both legs in one for Mara: there are no sides",
    );
  });

  it("all at the centre, and where that is right", () => {
    expect(
      said(
        panned(() => 0),
        "mara",
      ),
    ).toEqual({
      tone: "care",
      says: "All in the middle for Mara: no sides to hear",
      more: "HAT, TOM, FLOOR and RIDE would stand at a side: pan them.",
    });
    const one = panned(() => 0);
    const pieces = one.kit.pieces.map((p) => (p.id === "hat" ? p : { ...p, x: 0.05 }));
    expect(said({ ...one, kit: { ...one.kit, pieces } }, "mara").more).toBe(
      "HAT would stand at a side: pan it.",
    );
    const middle = {
      ...panned(() => 0),
      kit: { ...kit().kit, pieces: kit().kit.pieces.map((p) => ({ ...p, x: 0.05 })) },
    };
    expect(said(middle, "mara")).toMatchObject({
      tone: "fine",
      says: "Correct for Mara: everything belongs in the middle",
    });
  });

  it("one source only", () => {
    const one = withSum(kit(), { sends: [{ source: "hat", level: 0, pan: null }] });
    expect(said(one, "mara")).toEqual({
      tone: "wrong",
      says: "Only HAT can be placed for Mara: on the wrong side",
      more: "It stands left and is heard right.",
    });
    expect(said(swapped(one), "mara")).toMatchObject({
      tone: "fine",
      says: "Only HAT can be placed for Mara: correct",
    });
    const kick = withSum(kit(), { sends: [{ source: "hat", level: 0, pan: 0 }] });
    expect(said(kick, "mara")).toEqual({
      tone: "care",
      says: "Only HAT can be placed for Mara: it has no clear side",
      more: "It stands left and is heard in the middle.",
    });
  });

  it("nothing with a place", () => {
    const setup = { ...kit(), sources: kit().sources.map((s) => ({ ...s, piece: null })) };
    expect(said(setup, "mara")).toEqual({
      tone: "care",
      says: "Nothing in Drums has a place at the kit",
      more: "Say at which piece a source stands, and its side can be told.",
    });
    expect(said(setup, "audience").says).toBe("Nothing in the house has a place at the kit");
    const click = withSource(kit(), source("click"));
    expect(said(click, "mara").more).toBe(
      "Wrong: HAT, TOM, FLOOR and RIDE. 1 source without a place at the kit.",
    );
    // In the house there is always something without a place, a voice or a keyboard: no word about it.
    expect(said(click, "audience").more).toBe("");
  });

  it("sides lost", () => {
    const keys = withSource(kit(), source("keys", { name: "Keys", channels: 2, keepSides: true }));
    expect(said(swapped(keys), "mara").more).toContain("Keys must keep its sides and has lost them.");
    const both = withSource(keys, source("organ", { name: "Organ", channels: 2, keepSides: true }));
    expect(said(swapped(both), "mara").more).toContain(
      "Keys and Organ must keep their sides and have lost them.",
    );
  });

  it("with as many wrong as right it is mixed up, not reversed; what stands in the middle does not count", () => {
    const two = panned((s) => (s.id === "hat" || s.id === "ride" ? s.pan : -s.pan));
    expect(said(two, "mara").says).toBe("Mixed up for Mara: 2 of 5 on the wrong side");
    const three = panned((s) => (s.id === "hat" ? -s.pan : s.pan));
    expect(said(three, "mara").says).toBe("Reversed for Mara: 3 of 5 on the wrong side");
    // Three of the four at a side, and two in the middle.
    const six = withSource(three, source("kick2", { piece: "kick" }));
    expect(said(six, "mara").says).toBe("Reversed for Mara: 3 of 6 on the wrong side");
  });

  it("five names are listed whole", () => {
    const setup = withSource(kit(), source("a", { name: "A", piece: "hat", pan: 0.5 }));
    expect(said(setup, "mara").more).toBe("Wrong: HAT, TOM, FLOOR, RIDE and A.");
  });

  it("a pair of which one leg has a slot is patched, by its first slot too", () => {
    const leg = (side: "left" | "right") =>
      ({ feed: { kind: "leg", sum: "m1", leg: side }, on: true, trim: 0 }) as const;
    const monitor = kit().monitor;
    for (const slots of [[leg("left")], [leg("right")]])
      expect(said({ ...kit(), monitor: { ...monitor, slots } }, "mara").more).not.toContain("in no slot yet");
  });

  it("a long list of names is cut", () => {
    let setup = kit();
    for (const id of ["a", "b", "c"]) setup = withSource(setup, source(id, { piece: "hat", pan: 0.5 }));
    expect(said(setup, "mara").more).toBe("Wrong: HAT, TOM, FLOOR, RIDE and 3 more.");
  });

  it("is a whole line in every random setup", () => {
    for (let seed = 0; seed < 500; seed += 1) {
      const setup = randomSetup(seed);
      for (const { id } of setup.listeners) {
        const { says, more } = said(setup, id);
        expect(`${says} ${more}`).not.toMatch(/undefined|null|NaN|Infinity| {2}/);
        expect(says).toMatch(/^[A-Z].*[^.]$/);
      }
    }
  });
});
