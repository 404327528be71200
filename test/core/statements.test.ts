import { describe, expect, it } from "vitest";
import { withBusSwapped } from "../../src/core/mix/pair-order";
import type { Bus, Channel, Listener, Setup } from "../../src/core/model/setup";
import { describeImage } from "../../src/core/statements";
import { imagesOf } from "../../src/core/stereo/image";
import { exampleSetup } from "../../src/document/example";
import { channel, DRUMMER, kit, listener, randomSetup, withChannel } from "./recommend/setups";

const said = (setup: Setup, id: string) => {
  const at = setup.listeners.findIndex((l) => l.id === id);
  const image = imagesOf(setup)[at];
  if (!image) throw new Error(`no ${id}`);
  return describeImage(setup, setup.listeners[at] as Listener, image);
};
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

  it("the audience gets FOH, whatever becomes of a bus that it is said to hear", () => {
    const [audience, ...others] = kit().listeners as [Listener, ...Listener[]];
    const setup = only([{ ...audience, bus: "m1" }, ...others]);
    const inputs = setup.monitor.inputs.map((input) => input && { ...input, on: false });
    for (const over of [
      withBus(setup, { stereo: false }),
      { ...setup, monitor: { ...setup.monitor, inputs } },
      { ...setup, monitor: { ...setup.monitor, inputs: [] } },
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

  it("no bus, an empty bus, everything muted", () => {
    expect(said(only([{ ...DRUMMER, bus: null }]), "mara")).toEqual({
      tone: "care",
      says: "Mara hears no bus",
      more: "Choose which bus is heard.",
    });
    const nothing = {
      tone: "care",
      says: "Nothing sounds in Drums",
      more: "Send a channel into it that is not muted.",
    };
    expect(said(withBus(kit(), { sends: [] }), "mara")).toEqual(nothing);
    const muted = { ...kit(), channels: kit().channels.map((s) => ({ ...s, muted: true })) };
    expect(said(muted, "mara")).toEqual(nothing);
    expect(said(muted, "audience")).toEqual({
      tone: "care",
      says: "Nothing is heard at FOH",
      more: "Every channel is muted, or there is none.",
    });
  });

  it("a bus in no input says that it is not patched yet", () => {
    const setup = kit({ monitor: { inputCount: 8, inputs: [], maxInputDbu: 20 } });
    expect(said(setup, "mara").more).toBe(
      "Wrong: HAT, TOM, FLOOR and RIDE. Drums is in no input yet: this is what will be heard once it is patched.",
    );
  });

  it("mono, folded, both sides in one", () => {
    expect(said(withBus(kit(), { stereo: false }), "mara")).toEqual({
      tone: "care",
      says: "Drums is mono: no sides for Mara",
      more: "",
    });
    expect(said(withBus(kit(), { folded: true }), "mara").says).toBe(
      "Drums is folded to mono: no sides for Mara",
    );
    expect(said(only([{ ...DRUMMER, mono: true }]), "mara").says).toBe(
      "Both sides in one for Mara: there are no sides",
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

  it("one channel only", () => {
    const one = withBus(kit(), { sends: [{ channel: "hat", level: 0, pan: null }] });
    expect(said(one, "mara")).toEqual({
      tone: "wrong",
      says: "Only HAT can be placed for Mara: on the wrong side",
      more: "It stands left and is heard right.",
    });
    expect(said(swapped(one), "mara")).toMatchObject({
      tone: "fine",
      says: "Only HAT can be placed for Mara: correct",
    });
    const kick = withBus(kit(), { sends: [{ channel: "hat", level: 0, pan: 0 }] });
    expect(said(kick, "mara")).toEqual({
      tone: "care",
      says: "Only HAT can be placed for Mara: it has no clear side",
      more: "It stands left and is heard in the middle.",
    });
  });

  it("nothing with a place", () => {
    const setup = { ...kit(), channels: kit().channels.map((s) => ({ ...s, piece: null })) };
    expect(said(setup, "mara")).toEqual({
      tone: "care",
      says: "Nothing in Drums has a place at the kit",
      more: "Say at which piece a channel stands, and its side can be told.",
    });
    expect(said(setup, "audience").says).toBe("Nothing at FOH has a place at the kit");
    const click = withChannel(kit(), channel("click"));
    expect(said(click, "mara").more).toBe(
      "Wrong: HAT, TOM, FLOOR and RIDE. 1 channel without a place at the kit.",
    );
    // At FOH there is always something without a place, a voice or a keyboard: no word about it.
    expect(said(click, "audience").more).toBe("");
  });

  it("sides lost", () => {
    const keys = withChannel(kit(), channel("keys", { name: "Keys", lines: 2, keepSides: true }));
    expect(said(swapped(keys), "mara").more).toContain("Keys must keep its sides and has lost them.");
    const both = withChannel(keys, channel("organ", { name: "Organ", lines: 2, keepSides: true }));
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
    const six = withChannel(three, channel("kick2", { piece: "kick" }));
    expect(said(six, "mara").says).toBe("Reversed for Mara: 3 of 6 on the wrong side");
  });

  it("five names are listed whole", () => {
    const setup = withChannel(kit(), channel("a", { name: "A", piece: "hat", pan: 0.5 }));
    expect(said(setup, "mara").more).toBe("Wrong: HAT, TOM, FLOOR, RIDE and A.");
  });

  it("a pair of which one side has an input is patched, by its first input too", () => {
    const side = (side: "left" | "right") =>
      ({ feed: { kind: "bus", bus: "m1", side: side }, on: true, trim: 0 }) as const;
    const monitor = kit().monitor;
    for (const inputs of [[side("left")], [side("right")]])
      expect(said({ ...kit(), monitor: { ...monitor, inputs } }, "mara").more).not.toContain(
        "in no input yet",
      );
  });

  it("a long list of names is cut", () => {
    let setup = kit();
    for (const id of ["a", "b", "c"]) setup = withChannel(setup, channel(id, { piece: "hat", pan: 0.5 }));
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
