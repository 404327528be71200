import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { energyLegs } from "../../src/core/channels";
import { earGains } from "../../src/core/ears";
import { imagesOf } from "../../src/core/image";
import type { Listener, Setup } from "../../src/core/setup";
import { expectNear } from "../near";
import { kit, randomSetup } from "./repair/setups";

const listenerOf = (setup: Setup, id: string): Listener => {
  const found = setup.listeners.find((l) => l.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

describe("gains at the ears", () => {
  it("taken as uncorrelated they are the image's legs, for every listener", () => {
    let seen = 0;
    fc.assert(
      fc.property(fc.nat({ max: 1e6 }), (seed) => {
        const setup = randomSetup(seed);
        const images = imagesOf(setup);
        setup.listeners.forEach((listener, at) => {
          const gains = earGains(setup, listener);
          const rows = images[at]?.rows ?? [];
          expect([...gains.keys()].sort()).toEqual(rows.map((r) => r.source).sort());
          for (const { source, legs } of rows) {
            const heard = energyLegs(gains.get(source) ?? []);
            expectNear(heard[0], legs[0], 1e-12);
            expectNear(heard[1], legs[1], 1e-12);
            seen += 1;
          }
        });
      }),
      { numRuns: 300 },
    );
    expect(seen).toBeGreaterThan(1000);
  });

  it("carry polarity: a source in both legs of which one is switched is gone in mono", () => {
    const [sum] = kit().sums;
    const setup: Setup = {
      ...kit(),
      sums: sum ? [{ ...sum, legInverted: [false, true] }] : [],
      sources: kit().sources.map((s) => ({ ...s, pan: 0 })),
    };
    const mara = listenerOf(setup, "mara");
    const stereo = [...earGains(setup, mara).values()].flat();
    expect(stereo.length).toBeGreaterThan(3);
    for (const [l, r] of stereo) {
      expectNear(r, -l, 1e-12);
      expect(l).toBeGreaterThan(0.1);
    }
    for (const channels of earGains(setup, { ...mara, mono: true }).values())
      for (const [l, r] of channels) {
        expect(l).toBe(0);
        expect(r).toBe(0);
      }
    // The image agrees: heard nowhere, so nothing about it is right.
    const [image] = imagesOf(setup, [{ ...mara, mono: true }]);
    expect(image?.rows.map((row) => row.heard)).toEqual(image?.rows.map(() => null));
    expect(image?.count.right).toBe(0);
  });

  it("two channels in one ear add by energy: a two-channel source at centre, both legs in one, comes 3.01 dB up", () => {
    const setup: Setup = { ...kit(), sources: kit().sources.map((s) => ({ ...s, pan: 0, channels: 2 })) };
    const mara = listenerOf(setup, "mara");
    const [apart, inOne] = imagesOf(setup, [mara, { ...mara, mono: true }]);
    expect(apart?.rows.length).toBeGreaterThan(3);
    apart?.rows.forEach(({ legs }, at) => {
      expectNear((inOne?.rows[at]?.legs[0] ?? 0) / legs[0], Math.SQRT2, 1e-12);
    });
  });

  it("a source with its polarity switched is so in the house too; a muted one is not there", () => {
    const setup: Setup = {
      ...kit(),
      sources: kit().sources.map((s, i) => ({ ...s, pan: 0, inverted: i === 0, muted: i === 1 })),
    };
    const heard = earGains(setup, listenerOf(setup, "audience"));
    const [first, second] = setup.sources;
    expectNear(heard.get(first?.id ?? "")?.[0]?.[0] ?? null, -Math.SQRT1_2, 1e-12);
    expect(heard.has(second?.id ?? "")).toBe(false);
  });

  it("who hears no sum hears nothing", () => {
    const setup = kit();
    expect(earGains(setup, { ...listenerOf(setup, "mara"), sum: null }).size).toBe(0);
  });
});
