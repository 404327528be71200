import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { levelOf } from "../../../src/core/level/decibels";
import type { Desk, StereoLaw } from "../../../src/core/model/setup";
import { channelGains, energySides, foldedGains, GAIN_INTO, stereoGains } from "../../../src/core/pan/stereo";
import { expectNear } from "../../near";
import { BALANCE } from "../../tables/balance";
import { W3C_STEREO_INPUT, W3C_UNCORRELATED } from "../../tables/w3c-panner";
import { DESK } from "../desk";

const LAWS: readonly StereoLaw[] = ["balance-linear", "balance-sine", "pan"];

describe("stereo channels", () => {
  it("pan as the Web Audio specification pans a stereo input", () => {
    for (const [pan, ...gains] of W3C_STEREO_INPUT) {
      const flat = stereoGains("pan", pan).flat();
      gains.forEach((gain, i) => {
        expectNear(flat[i] as number, gain, 1e-12, `gain ${i} at ${pan}`);
      });
    }
    for (const [pan, left, right] of W3C_UNCORRELATED) {
      const sides = energySides(stereoGains("pan", pan));
      expectNear(levelOf(sides[0]), left, 1e-9, `left at ${pan}`);
      expectNear(levelOf(sides[1]), right, 1e-9, `right at ${pan}`);
    }
  });

  it("balance lets the far side fall to silence", () => {
    for (const [pan, linearLeft, linearRight, sineLeft, sineRight] of BALANCE) {
      const linear = stereoGains("balance-linear", pan);
      const sine = stereoGains("balance-sine", pan);
      expectNear(linear[0]?.[0] ?? null, linearLeft, 1e-12, `linear left at ${pan}`);
      expectNear(linear[1]?.[1] ?? null, linearRight, 1e-12, `linear right at ${pan}`);
      expectNear(sine[0]?.[0] ?? null, sineLeft, 1e-12, `sine left at ${pan}`);
      expectNear(sine[1]?.[1] ?? null, sineRight, 1e-12, `sine right at ${pan}`);
      expect([linear[0]?.[1], linear[1]?.[0], sine[0]?.[1], sine[1]?.[0]]).toEqual([0, 0, 0, 0]);
    }
  });

  it("fully panned, the far channel is exactly silent in its own side, by every law", () => {
    for (const law of LAWS) {
      const [left, right] = stereoGains(law, -1);
      expect(left).toEqual([1, 0]);
      expect(right).toEqual([law === "pan" ? 1 : 0, 0]);
    }
  });

  it("mirror exactly, and leave both channels alone at the centre", () => {
    fc.assert(
      fc.property(fc.constantFrom(...LAWS), fc.double({ min: -1, max: 1, noNaN: true }), (law, pan) => {
        const mirrored = stereoGains(law, -pan).map(([l, r]) => [r, l]);
        expect(mirrored.reverse()).toEqual(stereoGains(law, pan));
      }),
    );
    for (const law of LAWS) {
      expect(stereoGains(law, 0)).toEqual([
        [1, 0],
        [0, 1],
      ]);
    }
  });
});

describe("channels of a channel", () => {
  const console: Desk = { ...DESK, law: "linear" };

  it("one goes by the pan law, two by the two-channel law", () => {
    expect(channelGains(console, { lines: 1 }, -0.5)).toEqual([[0.75, 0.25]]);
    expect(channelGains(console, { lines: 2 }, -0.5)).toEqual([
      [1, 0],
      [0, 0.5],
    ]);
  });

  it("add in energy, whatever the polarity", () => {
    expect(
      energySides([
        [3, 0],
        [-4, 1],
      ]),
    ).toEqual([5, 1]);
  });
});

describe("both sides in one", () => {
  it("opposite sides that differ only by the rounding of the arithmetic leave silence", () => {
    expect(0.1 + 0.2 - 0.3).not.toBe(0);
    expect(foldedGains([[0.1 + 0.2, -0.3]])).toEqual([[0, 0]]);
    expect(foldedGains([[-0.3, 0.1 + 0.2]])).toEqual([[0, 0]]);
  });

  it("what is very quiet, or in one side only, is no rounding", () => {
    expect(foldedGains([[1e-9, 1e-9]])).toEqual([[2e-9, 2e-9]]);
    expect(foldedGains([[0, 1e-9]])).toEqual([[1e-9, 1e-9]]);
    expect(foldedGains([[1e-9, -0.5e-9]])).toEqual([[0.5e-9, 0.5e-9]]);
  });

  it("one outlet takes its own side; mono takes both, plainly added", () => {
    expect(GAIN_INTO.left([0.75, 0.25])).toBe(0.75);
    expect(GAIN_INTO.right([0.75, 0.25])).toBe(0.25);
    expect(GAIN_INTO.mono([0.75, 0.25])).toBe(1);
    expect(GAIN_INTO.mono([0.75, -0.25])).toBe(0.5);
  });
});
