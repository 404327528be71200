import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { LawReference } from "../../../src/core/model/setup";
import { type Identification, identifyLaw } from "../../../src/core/pan/identify";
import { LAWS, type PanSettings } from "../../../src/core/pan/laws";
import type { Reading, ReadingPoint } from "../../../src/core/pan/reading";
import { levelAt } from "./at-reading";

const REFERENCES: readonly LawReference[] = ["sides", "centre"];
const RESOLUTIONS = [0.1, 0.2, 0.25, 0.4, 0.5, 0.7, 0.9, 1];
/** Levels before the pan that fall differently between the steps of a meter, dBFS. */
const LEVELS = [-20, -17.77, -12.349, -9.051];
const CENTRE: ReadingPoint = { pan: 0, side: "left" };
const POINTS: readonly ReadingPoint[] = [
  "before pan",
  CENTRE,
  { pan: -1, side: "left" },
  ...[0.25, 0.5, 0.75].flatMap((share): ReadingPoint[] => [
    { pan: -share, side: "right" },
    { pan: -share, side: "left" },
  ]),
];

const DESKS: readonly PanSettings[] = REFERENCES.flatMap((reference) => [
  ...Object.values(LAWS)
    .filter(({ id }) => id !== "custom")
    .map(({ id: law }) => ({ law, centreDb: 0, reference })),
  ...[1.5, 3.7, 5.2].map((centreDb) => ({ law: "custom" as const, centreDb, reference })),
]);

/** A meter that shows the nearest step, or the last one passed. */
const METERS = { nearest: Math.round, last: Math.floor };

const read =
  (desk: PanSettings, level: number, resolution: number, meter: (steps: number) => number) =>
  (at: ReadingPoint): Reading => ({
    at,
    level: resolution * meter((level + levelAt(desk, at)) / resolution),
    resolution,
  });

const isNamed = ({ left }: Identification, { law, reference }: PanSettings): boolean =>
  left.some((fit) => fit.law === law && fit.reference === reference);

/** How far two laws are apart at a point, for one level of the channel. */
const apartAt = (a: PanSettings, b: PanSettings, at: ReadingPoint): number => levelAt(a, at) - levelAt(b, at);

const CASES = RESOLUTIONS.flatMap((resolution) =>
  Object.entries(METERS).flatMap(([meter, rounds]) =>
    DESKS.flatMap((desk) =>
      LEVELS.map((level) => ({ resolution, meter, desk, take: read(desk, level, resolution, rounds) })),
    ),
  ),
);

describe("a desk’s pan law from meter readings", () => {
  it("never rules out the true law, whatever is read", () => {
    const isRuledOut = (desk: PanSettings, readings: readonly Reading[]): boolean => {
      const { ranked } = identifyLaw(readings);
      const fit = ranked.find((row) => row.law === desk.law && row.reference === desk.reference);
      if (!fit?.fits) return true;
      if (desk.law !== "custom") return false;
      return !fit.centre || fit.centre.low > desk.centreDb + 1e-6 || fit.centre.high < desk.centreDb - 1e-6;
    };
    const wrong = CASES.flatMap(({ desk, take }) =>
      POINTS.flatMap((_, from) =>
        [2, 3, 4, 5]
          .map((count) => [...POINTS, ...POINTS].slice(from, from + count).map(take))
          .filter((readings) => isRuledOut(desk, readings))
          .map((readings) => ({ desk, readings })),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it("suggests a reading that leaves one law, where some reading is sure to", () => {
    let tried = 0;
    for (const { desk, take, resolution } of CASES) {
      if (desk.law === "custom") continue;
      for (const begun of [
        ["before pan"],
        ["before pan", CENTRE],
        [CENTRE, { pan: -1, side: "left" }],
      ] as ReadingPoint[][]) {
        const readings = begun.map(take);
        const { left, next } = identifyLaw(readings);
        // Between two readings a difference is known to twice the half steps of both.
        const tells = (at: ReadingPoint) =>
          left.every((a) =>
            left.every((b) => {
              const [x, y] = [a, b].map(({ law, reference }) => ({ law, reference, centreDb: 0 }));
              if (a === b || !x || !y) return true;
              return begun.some(
                (was) => Math.abs(apartAt(x, y, at) - apartAt(x, y, was)) > 2 * resolution + 1e-9,
              );
            }),
          );
        if (left.length < 2 || !POINTS.some(tells)) continue;
        tried += 1;
        expect(next).not.toBeNull();
        const after = identifyLaw([...readings, take(next as ReadingPoint)]);
        expect(after.left.map(({ law, reference }) => ({ law, reference }))).toEqual([
          { law: desk.law, reference: desk.reference },
        ]);
      }
    }
    expect(tried).toBeGreaterThan(100);
  });

  it("leaves after five readings only laws that differ by no more than the meter can tell", () => {
    for (const { desk, take, resolution } of CASES) {
      if (desk.law === "custom") continue;
      const readings = ["before pan", CENTRE].map((at) => take(at as ReadingPoint));
      let found = identifyLaw(readings);
      while (found.next && readings.length < 5) {
        readings.push(take(found.next));
        found = identifyLaw(readings);
      }
      expect(isNamed(found, desk)).toBe(true);
      for (const { law, reference } of found.left) {
        const other = { law, reference, centreDb: 0 };
        const apart = POINTS.map((at) => apartAt(other, desk, at));
        expect(Math.max(...apart) - Math.min(...apart)).toBeLessThanOrEqual(2 * resolution + 1e-9);
      }
    }
  });

  it("cannot tell the reference without a reading before the pan, and asks for it", () => {
    const take = read({ law: "linear", centreDb: 0, reference: "centre" }, -18, 0.1, Math.round);
    const readings = [CENTRE, { pan: -1, side: "left" } as const, { pan: -0.5, side: "right" } as const].map(
      take,
    );
    const { left, next } = identifyLaw(readings);
    expect(left.map(({ law }) => law)).toEqual(["linear", "linear"]);
    expect(next).toBe("before pan");
    expect(identifyLaw([...readings, take("before pan")]).left).toMatchObject([{ reference: "centre" }]);
  });

  it("names the one reading that contradicts the others", () => {
    const take = read({ law: "sine", centreDb: 0, reference: "sides" }, -18, 0.1, Math.round);
    const readings = POINTS.slice(0, 4).map(take);
    expect(identifyLaw(readings).odd).toBeNull();
    const wrong = readings.map((r, at) => (at === 2 ? { ...r, level: r.level - 5 } : r));
    const found = identifyLaw(wrong);
    expect(found.left).toEqual([]);
    expect(found.odd).toBe(2);
  });

  it("gives what no reading can tell no weight: the silent side of a hard pan", () => {
    const take = read({ law: "sine", centreDb: 0, reference: "sides" }, -18, 0.1, Math.round);
    const readings = [take("before pan"), take(CENTRE)];
    const silent = { at: { pan: -1, side: "right" } as const, level: -60, resolution: 0.1 };
    expect(identifyLaw([...readings, silent])).toEqual({ ...identifyLaw(readings), silent: [2] });
  });

  it("leaves the law of the desk’s own drop no figure where no drop fits", () => {
    const take = read({ law: "root", centreDb: 0, reference: "sides" }, -18, 0.1, Math.round);
    const { ranked } = identifyLaw(
      ["before pan" as const, CENTRE, { pan: -0.5, side: "right" } as const].map(take),
    );
    const own = ranked.filter(({ law }) => law === "custom");
    expect(own).toHaveLength(2);
    for (const fit of own) expect(fit).toMatchObject({ fits: false, play: null, centre: null });
  });

  it("asks for no reading twice, and for none of a silent side, however few steps a pan has", () => {
    for (const steps of [1, 2, 3, 63])
      for (const { desk, take } of CASES) {
        const readings = [take("before pan")];
        for (;;) {
          const { next } = identifyLaw(readings, (pan) => Math.round(pan * steps) / steps);
          if (!next) break;
          const isTaken = DESKS.every((any) =>
            readings.some(({ at }) => levelAt(any, at) === levelAt(any, next)),
          );
          if (isTaken || levelAt(desk, next) < -200)
            expect.fail(`${JSON.stringify(next)} after ${JSON.stringify(readings)}`);
          readings.push(take(next));
        }
      }
  });

  it("never rules out the true law at any level, step and pan, and its drop", () => {
    const point = fc.oneof(
      fc.constant<ReadingPoint>("before pan"),
      fc.record({ pan: fc.double({ min: -1, max: 1, noNaN: true }), side: fc.constantFrom("left", "right") }),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...DESKS),
        fc.double({ min: -60, max: 0, noNaN: true }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        fc.constantFrom(Math.round, Math.floor, Math.ceil),
        fc.array(point, { minLength: 2, maxLength: 5 }),
        (desk, level, resolution, meter, points) => {
          const readings = points
            .filter((at) => levelAt(desk, at) > -60)
            .map(read(desk, level, resolution, meter));
          const { ranked, odd } = identifyLaw(readings);
          expect(
            ranked.find(({ law, reference }) => law === desk.law && reference === desk.reference)?.fits,
          ).toBe(true);
          expect(odd).toBeNull();
        },
      ),
    );
  });

  it("puts the pan of a suggested reading on the desk’s steps", () => {
    const take = read({ law: "sine", centreDb: 0, reference: "sides" }, -18, 0.1, Math.round);
    const { next } = identifyLaw([take("before pan"), take(CENTRE)], (pan) => Math.round(pan * 5) / 5);
    expect(next).toMatchObject({ pan: -0.4 });
  });
});
