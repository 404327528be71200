import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { levelOf } from "../../../src/core/level/decibels";
import { keysOf } from "../../../src/core/lib/keys";
import type { LawId } from "../../../src/core/model/setup";
import { byEveryLaw, centreLevel, LAWS, type PanSettings, panGains } from "../../../src/core/pan/laws";
import { expectNear, printed } from "../../near";
import { CENTRE_FAMILY, EXPONENTS } from "../../tables/centre-family";
import { CENTRE_LEVELS, PAN_LAWS } from "../../tables/pan-laws";
import { LARGEST_GAP, ROOT_AGAINST_SINE } from "../../tables/root-against-sine";

const IDS = Object.keys(LAWS) as LawId[];
/** Every law has its values; those of the custom one are a family of curves. */
const VALUES: { readonly [law in Exclude<LawId, "custom">]: (typeof PAN_LAWS)["sine"] } = PAN_LAWS;
const TABLED = keysOf(VALUES);
const sides = (law: LawId, centreDb = 4): PanSettings => ({ law, centreDb, reference: "sides" });
const centre = (law: LawId, centreDb = 4): PanSettings => ({ law, centreDb, reference: "centre" });
const pan = fc.double({ min: -1, max: 1, noNaN: true });
/** Even over the whole way, where `pan` is mostly next to the centre. */
const anywhere = fc.integer({ min: -1e6, max: 1e6 }).map((n) => n / 1e6);
const settings = fc.record<PanSettings>({
  law: fc.constantFrom(...IDS),
  centreDb: fc.double({ min: 0, max: 12, noNaN: true }),
  reference: fc.constantFrom("sides", "centre"),
});

describe("published values", () => {
  it.each(TABLED)("%s at 21 positions", (law) => {
    expect(VALUES[law]).toHaveLength(21);
    for (const [at, left, right] of VALUES[law]) {
      const gains = panGains(sides(law), at);
      expectNear(gains[0], left, 1e-12, `left at ${at}`);
      expectNear(gains[1], right, 1e-12, `right at ${at}`);
    }
  });

  it("any centre attenuation", () => {
    for (const [centreDb, at, left, right] of CENTRE_FAMILY) {
      const gains = panGains(sides("custom", centreDb), at);
      expectNear(gains[0], left, 1e-12, `${centreDb} dB, left at ${at}`);
      expectNear(gains[1], right, 1e-12, `${centreDb} dB, right at ${at}`);
    }
    for (const [centreDb, exponent] of EXPONENTS) {
      const [left] = panGains(sides("custom", centreDb), 0.5);
      expectNear(Math.log(left) / Math.log(Math.cos((3 * Math.PI) / 8)), exponent, printed(5));
    }
  });

  it.each(TABLED)("centre level of %s", (law) => {
    expectNear(centreLevel(law, 0), CENTRE_LEVELS[law], printed(3));
    expectNear(levelOf(panGains(sides(law), 0)[0]), CENTRE_LEVELS[law], printed(3));
    // With the centre at 0 dB the sides are as much hotter.
    expectNear(levelOf(panGains(centre(law), 1)[1]), -CENTRE_LEVELS[law], printed(3));
  });

  it("square root and sin/cos are not one law", () => {
    for (const [away, rootFar, sineFar, rootDifference, sineDifference] of ROOT_AGAINST_SINE) {
      const root = panGains(sides("root"), -away).map(levelOf) as [number, number];
      const sine = panGains(sides("sine"), -away).map(levelOf) as [number, number];
      expectNear(root[1], rootFar, 1e-9, `root at ${away}`);
      expectNear(sine[1], sineFar, 1e-9, `sine at ${away}`);
      expectNear(root[1] - root[0], rootDifference, 1e-9);
      expectNear(sine[1] - sine[0], sineDifference, 1e-9);
    }
    const gap = panGains(sides("root"), LARGEST_GAP.away)[0] - panGains(sides("sine"), LARGEST_GAP.away)[0];
    expectNear(gap, LARGEST_GAP.gain, 1e-12);
  });
});

describe("properties of every law", () => {
  it("a mirrored pan gives exactly the mirrored gains", () => {
    fc.assert(
      fc.property(settings, pan, (s, p) => {
        expect(panGains(s, -p)).toEqual([...panGains(s, p)].reverse());
      }),
    );
  });

  it.each(IDS)("%s is exactly silent at the far end and 0 dB at the near one", (law) => {
    expect(panGains(sides(law), -1)).toEqual([1, 0]);
    expect(panGains(sides(law), 1)).toEqual([0, 1]);
    expect(panGains(centre(law), 0)).toEqual([1, 1]);
    expect(panGains(centre(law), 1)[0]).toBe(0);
    expect(panGains(sides(law, 0), 1)[0]).toBe(0);
  });

  it("never falls towards the side it is turned to", () => {
    fc.assert(
      fc.property(settings, pan, pan, (s, a, b) => {
        const [low, high] = [panGains(s, Math.min(a, b)), panGains(s, Math.max(a, b))];
        expect(high[1]).toBeGreaterThanOrEqual(low[1]);
        expect(high[0]).toBeLessThanOrEqual(low[0]);
      }),
    );
  });

  it.each(IDS)("%s keeps what it says at every pan, and nothing else", (law) => {
    const kept = { power: (l: number, r: number) => l * l + r * r, sum: (l: number, r: number) => l + r };
    for (const what of ["power", "sum"] as const) {
      const isKept = (p: number): boolean => Math.abs(kept[what](...panGains(sides(law), p)) - 1) < 1e-12;
      if (LAWS[law].keeps === what) fc.assert(fc.property(anywhere, isKept), { numRuns: 1000 });
      else expect(isKept(0.3), what).toBe(false);
    }
  });
});

describe("by every law", () => {
  it("makes one of each law and reference, keeps what else is set, and marks the case that is set", () => {
    const made = byEveryLaw({ ...centre("root", 5), steps: 7 }, ({ law, reference, centreDb, steps }) => ({
      by: `${law} ${reference} ${centreDb} ${steps}`,
    }));
    expect(made.map((m) => m.by)).toEqual(IDS.flatMap((id) => [`${id} sides 5 7`, `${id} centre 5 7`]));
    for (const { law, reference, by } of made) expect(by).toBe(`${law} ${reference} 5 7`);
    expect(made.filter((m) => m.believed).map((m) => m.by)).toEqual(["root centre 5 7"]);
  });
});
