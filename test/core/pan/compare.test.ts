import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { levelOf } from "../../../src/core/level/decibels";
import { compareLaws } from "../../../src/core/pan/compare";
import { LAWS, panGains } from "../../../src/core/pan/laws";
import { levelDifference } from "../../../src/core/stereo/position";
import { expectNear, printed } from "../../near";
import { ROOT_AGAINST_SINE } from "../../tables/root-against-sine";

const console = { law: "sine", centreDb: 4, reference: "sides" } as const;
const find = (pan: number, law: string, reference: string) => {
  const row = compareLaws(console, pan).find((r) => r.law === law && r.reference === reference);
  if (!row) throw new Error(`no row for ${law}`);
  return row;
};

describe("one pan by every law", () => {
  it("has every law with both references, and marks the console's own", () => {
    const rows = compareLaws(console, 0.3);
    expect(rows.map((r) => `${r.law} ${r.reference}`)).toEqual(
      Object.keys(LAWS).flatMap((id) => [`${id} sides`, `${id} centre`]),
    );
    expect(rows.filter((r) => r.believed)).toEqual([find(0.3, "sine", "sides")]);
    const own = find(0.3, "custom", "centre");
    const gains = panGains({ law: "custom", centreDb: 4, reference: "centre" }, 0.3);
    const believed = panGains(console, 0.3);
    expect(own.difference).toBe(levelDifference(gains));
    own.levelMove.forEach((move, side) => {
      expectNear(move, levelOf((gains[side] ?? 0) / (believed[side] ?? 0)), 1e-12);
    });
  });

  it("moves nothing for the law that is believed", () => {
    fc.assert(
      fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (pan) => {
        const own = find(pan, "sine", "sides");
        expect([own.imageMove, ...own.levelMove]).toEqual([0, 0, 0]);
      }),
    );
  });

  it("says how far the image moves when sin/cos is really square root", () => {
    for (const [away, rootFar, sineFar, rootDifference, sineDifference] of ROOT_AGAINST_SINE) {
      // The table's pans are to the left; the far side is the right one.
      const row = find(-away, "root", "sides");
      expectNear(row.imageMove, rootDifference - sineDifference, 1e-9, `at ${away}`);
      expectNear(row.levelMove[1], rootFar - sineFar, 1e-9, `at ${away}`);
    }
  });

  it("a reference moves the level and not the image", () => {
    const row = find(0.5, "sine", "centre");
    expectNear(row.imageMove, 0, 1e-12);
    expectNear(row.levelMove[0], 3.01, printed(2));
    expectNear(row.levelMove[1], 3.01, printed(2));
  });

  it("at the ends nothing can move but the level, and nothing is NaN", () => {
    for (const pan of [-1, 1]) {
      for (const row of compareLaws(console, pan)) {
        const far = pan < 0 ? 1 : 0;
        expect(row.imageMove).toBe(0);
        expect(row.levelMove[far]).toBe(0);
        expect(row.difference).toBe(pan * Infinity);
        expectNear(row.angle, pan * 30, 1e-12);
      }
    }
  });
});
