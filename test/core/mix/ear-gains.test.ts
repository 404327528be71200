import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { earGains } from "../../../src/core/mix/ear-gains";
import type { Listener, Setup } from "../../../src/core/model/setup";
import { energySides } from "../../../src/core/pan/stereo";
import { imagesOf } from "../../../src/core/stereo/image";
import { expectNear } from "../../near";
import { kit, randomSetup } from "../recommend/setups";

const listenerOf = (setup: Setup, id: string): Listener => {
  const found = setup.listeners.find((l) => l.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

describe("gains at the ears", () => {
  it("taken as uncorrelated they are the image's sides, for every listener", () => {
    let seen = 0;
    let runs = 0;
    fc.assert(
      fc.property(fc.nat({ max: 1e6 }), (seed) => {
        runs += 1;
        const setup = randomSetup(seed);
        const images = imagesOf(setup);
        setup.listeners.forEach((listener, at) => {
          const gains = earGains(setup, listener);
          const rows = images[at]?.rows ?? [];
          expect([...gains.keys()].sort()).toEqual(rows.map((r) => r.channel).sort());
          for (const { channel, sides } of rows) {
            const heard = energySides(gains.get(channel) ?? []);
            expectNear(heard[0], sides[0], 1e-12);
            expectNear(heard[1], sides[1], 1e-12);
            seen += 1;
          }
        });
      }),
      { numRuns: 300 },
    );
    // Of what was really run: a mutant is judged by fewer.
    expect(seen / runs).toBeGreaterThan(1000 / 300);
  });

  it("carry polarity: a channel in both sides of which one is switched is gone in mono", () => {
    const [bus] = kit().buses;
    const setup: Setup = {
      ...kit(),
      buses: bus ? [{ ...bus, sideInverted: [false, true] }] : [],
      channels: kit().channels.map((s) => ({ ...s, pan: 0 })),
    };
    const mara = listenerOf(setup, "mara");
    const stereo = [...earGains(setup, mara).values()].flat();
    expect(stereo.length).toBeGreaterThan(3);
    for (const [l, r] of stereo) {
      expectNear(r, -l, 1e-12);
      expect(l).toBeGreaterThan(0.1);
    }
    for (const gains of earGains(setup, { ...mara, mono: true }).values())
      for (const [l, r] of gains) {
        expect(l).toBe(0);
        expect(r).toBe(0);
      }
    // The image agrees: heard nowhere, so nothing about it is right.
    const [image] = imagesOf(setup, [{ ...mara, mono: true }]);
    expect(image?.rows.map((row) => row.heard)).toEqual(image?.rows.map(() => null));
    expect(image?.count.right).toBe(0);
  });

  it("two channels in one ear add by energy: a stereo channel at centre, both sides in one, comes 3.01 dB up", () => {
    const setup: Setup = { ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: 0, lines: 2 })) };
    const mara = listenerOf(setup, "mara");
    const [apart, inOne] = imagesOf(setup, [mara, { ...mara, mono: true }]);
    expect(apart?.rows.length).toBeGreaterThan(3);
    apart?.rows.forEach(({ sides }, at) => {
      expectNear((inOne?.rows[at]?.sides[0] ?? 0) / sides[0], Math.SQRT2, 1e-12);
    });
  });

  it("a channel with its polarity switched is so at FOH too; a muted one is not there", () => {
    const setup: Setup = {
      ...kit(),
      channels: kit().channels.map((s, i) => ({ ...s, pan: 0, inverted: i === 0, muted: i === 1 })),
    };
    const heard = earGains(setup, listenerOf(setup, "audience"));
    const [first, second] = setup.channels;
    expectNear(heard.get(first?.id ?? "")?.[0]?.[0] ?? null, -Math.SQRT1_2, 1e-12);
    expect(heard.has(second?.id ?? "")).toBe(false);
  });

  it("who hears no bus hears nothing", () => {
    const setup = kit();
    expect(earGains(setup, { ...listenerOf(setup, "mara"), bus: null }).size).toBe(0);
  });
});
