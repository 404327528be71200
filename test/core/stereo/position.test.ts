import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gainOf } from "../../../src/core/level/decibels";
import { panGains } from "../../../src/core/pan/laws";
import {
  earPosition,
  heardPlace,
  lateralPosition,
  levelDifference,
  loudspeakerAngle,
  placeAt,
} from "../../../src/core/stereo/position";
import { expectNear, printed } from "../../near";
import { DIFFERENCE_POSITIONS } from "../../tables/difference-positions";
import { ANGLE_OF_DIFFERENCE, ANGLE_OF_PAN, BASE_GAINS } from "../../tables/pulkki-1997";

const LAWS = ["linear", "sine", "root", "mean45", "cosine2"] as const;
const at = (law: (typeof LAWS)[number], pan: number) =>
  panGains({ law, centreDb: 3, reference: "sides" }, pan);
const gain = fc.oneof(fc.constant(0), fc.double({ min: 1e-6, max: 4, noNaN: true }));
const rad = (degrees: number): number => (degrees * Math.PI) / 180;

/** Solves g·L = p by elimination, rows of L being the loudspeakers' unit vectors (ahead, right). */
const solve = (angle: number): [number, number] => {
  const rows = [
    [Math.cos(rad(-30)), Math.cos(rad(30)), Math.cos(rad(angle))],
    [Math.sin(rad(-30)), Math.sin(rad(30)), Math.sin(rad(angle))],
  ] as [[number, number, number], [number, number, number]];
  const factor = rows[1][0] / rows[0][0];
  const right = (rows[1][2] - factor * rows[0][2]) / (rows[1][1] - factor * rows[0][1]);
  const left = (rows[0][2] - rows[0][1] * right) / rows[0][0];
  const size = Math.sqrt(left * left + right * right);
  return [left / size, right / size];
};

describe("loudspeakers at ±30°", () => {
  it("tangent law by level difference", () => {
    for (const [difference, angle] of ANGLE_OF_DIFFERENCE) {
      expectNear(loudspeakerAngle([1, gainOf(difference)]), angle, printed(3), `${difference} dB`);
      expectNear(loudspeakerAngle([gainOf(difference), 1]), -angle, printed(3), `${difference} dB`);
    }
  });

  it("angle of each law by pan", () => {
    for (const [pan, ...angles] of ANGLE_OF_PAN) {
      LAWS.forEach((law, i) => {
        expectNear(loudspeakerAngle(at(law, pan)), angles[i] as number, printed(2), `${law} at ${pan}`);
      });
    }
  });

  it("the way back from vector base panning: table, and an inverse of its own", () => {
    for (const [angle, left, right] of BASE_GAINS)
      expectNear(loudspeakerAngle([left, right]), angle, 1e-9, `${angle}°`);
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), (angle) => {
        expectNear(loudspeakerAngle(solve(angle)), angle, 1e-12);
      }),
    );
  });
});

describe("level difference and lateral position", () => {
  it("reaches each difference at the pan that each law gives", () => {
    for (const [difference, ...pans] of DIFFERENCE_POSITIONS) {
      LAWS.forEach((law, i) => {
        // The pan is printed to four digits: its neighbours must lie on both sides of the difference.
        const pan = pans[i] as number;
        expect(levelDifference(at(law, pan - 0.00005)), `${law}, ${difference} dB`).toBeLessThan(difference);
        expect(levelDifference(at(law, pan + 0.00005)), `${law}, ${difference} dB`).toBeGreaterThan(
          difference,
        );
      });
    }
  });

  it("is exactly opposite for a swapped pair, and blind to polarity", () => {
    fc.assert(
      fc.property(gain, gain, (l, r) => {
        expect(levelDifference([r, l]) + levelDifference([l, r]) || 0).toBe(0);
        expect(levelDifference([-l, r])).toBe(levelDifference([l, r]));
        const [here, there] = [lateralPosition([l, r]), lateralPosition([r, l])];
        expect(here === null ? null : here + (there ?? Number.NaN)).toBe(l + r === 0 ? null : 0);
        expect(lateralPosition([l, -r])).toBe(here);
      }),
    );
  });

  it("a lateral position is the pan that sin/cos would need", () => {
    fc.assert(
      fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (pan) => {
        expectNear(lateralPosition(at("sine", pan)), pan, 1e-12);
      }),
    );
    expect([lateralPosition([1, 0]), lateralPosition([1, 1]), lateralPosition([0, 1])]).toEqual([-1, 0, 1]);
  });

  it("says where a pair is heard, and that silence is nowhere", () => {
    const pair = (difference: number) => [1, gainOf(difference)] as const;
    expect([-1.01, -0.99, 0, 0.99, 1.01].map((d) => heardPlace(pair(d)))).toEqual([
      "left",
      "middle",
      "middle",
      "middle",
      "right",
    ]);
    expect([-1, 1].map(placeAt), "from 1 dB on it is at a side").toEqual(["left", "right"]);
    expect([heardPlace([1, 0]), heardPlace([0, 1])]).toEqual(["left", "right"]);
    expect([heardPlace([0, 0]), lateralPosition([0, 0]), loudspeakerAngle([0, 0])]).toEqual([
      null,
      null,
      null,
    ]);
    expect(levelDifference([0, 0])).toBe(0);
    expect([levelDifference([0, 1]), levelDifference([1, 0])]).toEqual([Infinity, -Infinity]);
    expect([earPosition(-99), earPosition(-7.5), earPosition(Infinity)]).toEqual([-1, -0.5, 1]);
  });
});
