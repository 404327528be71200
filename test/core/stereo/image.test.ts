import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gainOf } from "../../../src/core/level/decibels";
import { withBusSwapped } from "../../../src/core/mix/pair-order";
import type { Bus, Setup } from "../../../src/core/model/setup";
import { type Image, imagesOf } from "../../../src/core/stereo/image";
import { expectNear } from "../../near";
import { MONITOR_REST } from "../desk";
import { channel, DRUMMER, kit, listener, randomSetup, side, withChannel } from "../recommend/setups";

const imageFor = (setup: Setup, id: string): Image => {
  const image = imagesOf(setup).find((i) => i.listener === id);
  if (!image) throw new Error(`no ${id}`);
  return image;
};
const counts = (setup: Setup, id: string) => {
  const { right, wrong, centred, unplaced } = imageFor(setup, id).count;
  return [right, wrong, centred, unplaced];
};
const bus = (setup: Setup, over: Partial<Bus>): Setup => ({
  ...setup,
  buses: setup.buses.map((s, at) => (at === 0 ? { ...s, ...over } : s)),
});
const swapped = (setup: Setup): Setup => withBusSwapped(setup, setup.buses[0] as Bus);
const leftHanded = (setup: Setup): Setup => ({
  ...setup,
  kit: { ...setup.kit, hand: "left", pieces: setup.kit.pieces.map((p) => ({ ...p, x: -p.x })) },
});
const turned = (setup: Setup, yaw: number): Setup => ({ ...setup, kit: { ...setup.kit, yaw } });

describe("who hears it right", () => {
  it("panned for the audience: right at FOH, reversed for the drummer", () => {
    expect(counts(kit(), "audience")).toEqual([5, 0, 0, 0]);
    expect(counts(kit(), "mara")).toEqual([1, 4, 0, 0]);
    expect(imageFor(kit(), "mara").score).toBeLessThan(-0.5);
    expect(counts(swapped(kit()), "mara")).toEqual([5, 0, 0, 0]);
    expect(counts(swapped(kit()), "audience")).toEqual([5, 0, 0, 0]);
  });

  it("two negations cancel: left-handed with a right-handed pan is the drummer's own view", () => {
    const left = leftHanded(kit());
    expect(counts(left, "mara")).toEqual([5, 0, 0, 0]);
    expect(counts(left, "audience")).toEqual([1, 4, 0, 0]);
    expect(imageFor(left, "mara").rows).toEqual(
      imageFor(swapped(kit()), "mara").rows.map((row) => ({
        ...row,
        sides: [row.sides[1], row.sides[0]],
        difference: row.difference === 0 ? 0 : -row.difference,
        position: row.position === 0 ? 0 : -(row.position as number),
        heard: row.heard === "left" ? "right" : row.heard === "right" ? "left" : "middle",
        offset: row.offset === 0 ? row.offset : -(row.offset as number),
        stands: row.stands === "left" ? "right" : row.stands === "right" ? "left" : "middle",
      })),
    );
  });

  it("two negations cancel: with the drummer's back to the audience both see the same", () => {
    const back = turned(kit(), 180);
    expect(counts(back, "mara")).toEqual(counts(kit(), "mara"));
    expect(counts(back, "audience")).toEqual(counts(back, "mara"));
    const rows = (id: string) => imageFor(back, id).rows.map((r) => [r.offset, r.stands]);
    expect(rows("audience")).toEqual(rows("mara"));
  });

  it("two negations cancel: a pair swapped twice, or swapped and flipped at the mixer, is as it was", () => {
    for (let seed = 0; seed < 200; seed += 1) {
      const setup = randomSetup(seed);
      expect(imagesOf(swapped(swapped(setup)))).toEqual(imagesOf(setup));
    }
    const both = { ...swapped(kit()), listeners: [{ ...DRUMMER, flipped: true }] };
    expect(imagesOf(both)[0]).toEqual(imageFor(kit(), "mara"));
  });

  it("the trims of sides and inputs move the image, by exactly their difference", () => {
    const heard = (setup: Setup) => imageFor(setup, "mara").rows.map((r) => r.difference);
    const plain = heard(kit());
    const sides = heard(bus(kit(), { sideTrim: [0, -2] }));
    const inputs = heard(
      kit({
        monitor: {
          inputCount: 8,
          inputs: [side("m1", "left", 2), side("m1", "right")],
          maxInputDbu: 20,
          ...MONITOR_REST,
        },
      }),
    );
    plain.forEach((difference, at) => {
      expectNear(sides[at] as number, difference - 2, 1e-9);
      expectNear(inputs[at] as number, difference - 2, 1e-9);
    });
  });

  it("a piece in the middle may be heard up to 6 dB off it; at a side, under 1 dB is flat", () => {
    const at = (pan: number, id: string): string | undefined => {
      const setup = kit();
      const channels = setup.channels.map((s) => (s.id === id ? { ...s, pan } : s));
      return imageFor({ ...setup, channels }, "audience").rows.find((r) => r.channel === id)?.placement;
    };
    // Where sin/cos reaches 6 dB: pan 0.4085.
    expect([at(0.408, "kick"), at(-0.408, "kick"), at(0.409, "kick")]).toEqual(["right", "right", "centred"]);
    expect([at(0.07, "hat"), at(0.08, "hat"), at(-0.08, "hat")]).toEqual(["centred", "right", "wrong"]);
  });

  it("scores +1 for all hard on the right side, −1 for the mirror of it, 0 in the middle, none with nothing placed", () => {
    const hard = (factor: number): Setup => {
      const setup = kit();
      const channels = setup.channels.map((s) => ({ ...s, pan: Math.sign(s.pan) * factor }));
      return { ...setup, channels };
    };
    expect(imageFor(hard(1), "audience").score).toBe(1);
    expect(imageFor(hard(-1), "audience").score).toBe(-1);
    expect(imageFor(hard(0), "audience").score).toBe(0);
    const nowhere = { ...kit(), channels: kit().channels.map((s) => ({ ...s, piece: null })) };
    expect(imageFor(nowhere, "audience").score).toBe(null);
  });

  it("a side-on listener, a channel without a place, an empty bus, a listener without a bus", () => {
    const side = { ...kit(), listeners: [listener("rafi", { facing: 85 })] };
    expect(imageFor(side, "rafi").sideOn).toBe(true);
    expect(counts(side, "rafi")).toEqual([0, 0, 0, 5]);
    const extra = withChannel(kit(), channel("click", { pan: 0.5 }));
    expect(counts(extra, "mara")).toEqual([1, 4, 0, 1]);
    const empty = imageFor(bus(kit(), { sends: [] }), "mara");
    expect([empty.hears, empty.rows, empty.score]).toEqual(["bus", [], null]);
    const none = { ...kit(), listeners: [{ ...DRUMMER, bus: null }] };
    expect([imageFor(none, "mara").hears, imageFor(none, "mara").rows]).toEqual(["nothing", []]);
  });

  it("stereo keys lose their sides by one exchange, have them again by two, and lose them in a fold", () => {
    const keys = withChannel(kit(), channel("keys", { lines: 2, keepSides: true }));
    const lost = (setup: Setup) => imageFor(setup, "mara").sidesLost;
    const flipped = (setup: Setup): Setup => ({ ...setup, listeners: [{ ...DRUMMER, flipped: true }] });
    expect(lost(keys)).toBe(0);
    expect(lost(swapped(keys))).toBe(1);
    expect(lost(flipped(keys))).toBe(1);
    expect(lost(flipped(swapped(keys)))).toBe(0);
    expect(lost(bus(keys, { folded: true }))).toBe(1);
    expect(lost({ ...keys, listeners: [{ ...DRUMMER, mono: true }] })).toBe(1);
  });

  it("one channel that must keep its side does so by where it is heard, however it got there", () => {
    const guitar = (pan: number | null) =>
      withChannel(kit(), channel("guitar", { pan: 0.5, keepSides: true }), { pan });
    const lost = (setup: Setup) => imageFor(setup, "mara").sidesLost;
    expect([lost(guitar(null)), lost(swapped(guitar(null)))]).toEqual([0, 1]);
    expect([lost(guitar(-0.5)), lost(swapped(guitar(-0.5)))]).toEqual([1, 0]);
  });

  it("what is silent, or has no side at FOH, has none to lose", () => {
    const lost = (setup: Setup) => imageFor(setup, "mara").sidesLost;
    const off = (setup: Setup): Setup => ({
      ...setup,
      monitor: { ...setup.monitor, inputs: setup.monitor.inputs.map((s) => s && { ...s, on: false }) },
    });
    for (const channels of [1, 2] as const) {
      const set = withChannel(kit(), channel("keys", { lines: channels, pan: 0.5, keepSides: true }));
      expect([lost(swapped(set)), lost(off(swapped(set)))]).toEqual([1, 0]);
    }
    const centre = channel("guitar", { pan: 0, keepSides: true });
    expect(lost(withChannel(kit(), centre, { pan: 1 }))).toBe(0);
  });

  it("at FOH itself nothing loses its sides, whatever is done to the buses", () => {
    const keys = withChannel(kit(), channel("keys", { lines: 2, keepSides: true }));
    expect(imageFor(keys, "audience").sidesLost).toBe(0);
    expect(imageFor(bus(swapped(keys), { folded: true }), "audience").sidesLost).toBe(0);
  });

  it("sides of a row are the gains of the pan law with send and trims", () => {
    const setup = bus(kit(), { trim: -3, sideTrim: [1, 0] });
    const row = imageFor(setup, "mara").rows.find((r) => r.channel === "hat");
    const x = ((0.7 + 1) * Math.PI) / 4;
    expectNear(row?.sides[0] ?? 0, Math.cos(x) * gainOf(-6 - 3 + 1), 1e-12);
    expectNear(row?.sides[1] ?? 0, Math.sin(x) * gainOf(-6 - 3), 1e-12);
  });

  it("every channel is in exactly one count, and no score is beyond ±1", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
        for (const { count, rows, score } of imagesOf(randomSetup(seed))) {
          expect(count.right + count.wrong + count.centred + count.unplaced).toBe(rows.length);
          expect(Math.abs(score ?? 0)).toBeLessThanOrEqual(1 + 1e-12);
        }
      }),
    );
  });
});
