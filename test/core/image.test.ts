import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gainOf } from "../../src/core/decibels";
import { type Image, imagesOf } from "../../src/core/image";
import { withPairSwapped } from "../../src/core/patched";
import type { Setup, Sum } from "../../src/core/setup";
import { expectNear } from "../near";
import { DRUMMER, kit, leg, listener, randomSetup, source, withSource } from "./repair/setups";

const imageFor = (setup: Setup, id: string): Image => {
  const image = imagesOf(setup).find((i) => i.listener === id);
  if (!image) throw new Error(`no ${id}`);
  return image;
};
const counts = (setup: Setup, id: string) => {
  const { right, wrong, flat, unplaceable } = imageFor(setup, id).count;
  return [right, wrong, flat, unplaceable];
};
const sum = (setup: Setup, over: Partial<Sum>): Setup => ({
  ...setup,
  sums: setup.sums.map((s, at) => (at === 0 ? { ...s, ...over } : s)),
});
const swapped = (setup: Setup): Setup => withPairSwapped(setup, setup.sums[0] as Sum);
const leftHanded = (setup: Setup): Setup => ({
  ...setup,
  kit: { ...setup.kit, hand: "left", pieces: setup.kit.pieces.map((p) => ({ ...p, x: -p.x })) },
});
const turned = (setup: Setup, yaw: number): Setup => ({ ...setup, kit: { ...setup.kit, yaw } });

describe("who hears it right", () => {
  it("panned for the audience: right in the house, reversed for the drummer", () => {
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
        legs: [row.legs[1], row.legs[0]],
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

  it("the trims of legs and slots move the image, by exactly their difference", () => {
    const heard = (setup: Setup) => imageFor(setup, "mara").rows.map((r) => r.difference);
    const plain = heard(kit());
    const legs = heard(sum(kit(), { legTrim: [0, -2] }));
    const slots = heard(
      kit({
        monitor: { slotCount: 8, slots: [leg("m1", "left", 2), leg("m1", "right")], inputMaxDbu: 20 },
      }),
    );
    plain.forEach((difference, at) => {
      expectNear(legs[at] as number, difference - 2, 1e-9);
      expectNear(slots[at] as number, difference - 2, 1e-9);
    });
  });

  it("a piece in the middle may be heard up to 6 dB off it; at a side, under 1 dB is flat", () => {
    const at = (pan: number, id: string): string | undefined => {
      const setup = kit();
      const sources = setup.sources.map((s) => (s.id === id ? { ...s, pan } : s));
      return imageFor({ ...setup, sources }, "audience").rows.find((r) => r.source === id)?.agreement;
    };
    // Where sin/cos reaches 6 dB: pan 0.4085.
    expect([at(0.408, "kick"), at(-0.408, "kick"), at(0.409, "kick")]).toEqual(["right", "right", "flat"]);
    expect([at(0.07, "hat"), at(0.08, "hat"), at(-0.08, "hat")]).toEqual(["flat", "right", "wrong"]);
  });

  it("scores +1 for all hard on the right side, −1 for the mirror of it, 0 in the middle, none with nothing placed", () => {
    const hard = (factor: number): Setup => {
      const setup = kit();
      const sources = setup.sources.map((s) => ({ ...s, pan: Math.sign(s.pan) * factor }));
      return { ...setup, sources };
    };
    expect(imageFor(hard(1), "audience").score).toBe(1);
    expect(imageFor(hard(-1), "audience").score).toBe(-1);
    expect(imageFor(hard(0), "audience").score).toBe(0);
    const nowhere = { ...kit(), sources: kit().sources.map((s) => ({ ...s, piece: null })) };
    expect(imageFor(nowhere, "audience").score).toBe(null);
  });

  it("a side-on listener, a source without a place, an empty sum, a listener without a sum", () => {
    const side = { ...kit(), listeners: [listener("rafi", { facing: 85 })] };
    expect(imageFor(side, "rafi").sideOn).toBe(true);
    expect(counts(side, "rafi")).toEqual([0, 0, 0, 5]);
    const extra = withSource(kit(), source("click", { pan: 0.5 }));
    expect(counts(extra, "mara")).toEqual([1, 4, 0, 1]);
    const empty = imageFor(sum(kit(), { sends: [] }), "mara");
    expect([empty.hears, empty.rows, empty.score]).toEqual(["sum", [], null]);
    const none = { ...kit(), listeners: [{ ...DRUMMER, sum: null }] };
    expect([imageFor(none, "mara").hears, imageFor(none, "mara").rows]).toEqual(["nothing", []]);
  });

  it("stereo keys lose their sides by one exchange, have them again by two, and lose them in a fold", () => {
    const keys = withSource(kit(), source("keys", { channels: 2, keepSides: true }));
    const lost = (setup: Setup) => imageFor(setup, "mara").sidesLost;
    const flipped = (setup: Setup): Setup => ({ ...setup, listeners: [{ ...DRUMMER, flipped: true }] });
    expect(lost(keys)).toBe(0);
    expect(lost(swapped(keys))).toBe(1);
    expect(lost(flipped(keys))).toBe(1);
    expect(lost(flipped(swapped(keys)))).toBe(0);
    expect(lost(sum(keys, { folded: true }))).toBe(1);
    expect(lost({ ...keys, listeners: [{ ...DRUMMER, mono: true }] })).toBe(1);
  });

  it("one channel that must keep its side does so by where it is heard, however it got there", () => {
    const guitar = (pan: number | null) =>
      withSource(kit(), source("guitar", { pan: 0.5, keepSides: true }), { pan });
    const lost = (setup: Setup) => imageFor(setup, "mara").sidesLost;
    expect([lost(guitar(null)), lost(swapped(guitar(null)))]).toEqual([0, 1]);
    expect([lost(guitar(-0.5)), lost(swapped(guitar(-0.5)))]).toEqual([1, 0]);
  });

  it("what is silent, or has no side in the house, has none to lose", () => {
    const lost = (setup: Setup) => imageFor(setup, "mara").sidesLost;
    const off = (setup: Setup): Setup => ({
      ...setup,
      monitor: { ...setup.monitor, slots: setup.monitor.slots.map((s) => s && { ...s, on: false }) },
    });
    for (const channels of [1, 2] as const) {
      const set = withSource(kit(), source("keys", { channels, pan: 0.5, keepSides: true }));
      expect([lost(swapped(set)), lost(off(swapped(set)))]).toEqual([1, 0]);
    }
    const centre = source("guitar", { pan: 0, keepSides: true });
    expect(lost(withSource(kit(), centre, { pan: 1 }))).toBe(0);
  });

  it("in the house itself nothing loses its sides, whatever is done to the sums", () => {
    const keys = withSource(kit(), source("keys", { channels: 2, keepSides: true }));
    expect(imageFor(keys, "audience").sidesLost).toBe(0);
    expect(imageFor(sum(swapped(keys), { folded: true }), "audience").sidesLost).toBe(0);
  });

  it("legs of a row are the gains of the pan law with send and trims", () => {
    const setup = sum(kit(), { trim: -3, legTrim: [1, 0] });
    const row = imageFor(setup, "mara").rows.find((r) => r.source === "hat");
    const x = ((0.7 + 1) * Math.PI) / 4;
    expectNear(row?.legs[0] ?? 0, Math.cos(x) * gainOf(-6 - 3 + 1), 1e-12);
    expectNear(row?.legs[1] ?? 0, Math.sin(x) * gainOf(-6 - 3), 1e-12);
  });

  it("every source is in exactly one count, and no score is beyond ±1", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
        for (const { count, rows, score } of imagesOf(randomSetup(seed))) {
          expect(count.right + count.wrong + count.flat + count.unplaceable).toBe(rows.length);
          expect(Math.abs(score ?? 0)).toBeLessThanOrEqual(1 + 1e-12);
        }
      }),
    );
  });
});
