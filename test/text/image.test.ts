import { describe, expect, it } from "vitest";
import { gainOf } from "../../src/core/level/decibels";
import type { Sides } from "../../src/core/model/units";
import { type ImageRow, imagesOf } from "../../src/core/stereo/image";
import { heardPlace, lateralPosition, levelDifference } from "../../src/core/stereo/position";
import { formatAngle, formatDifference, formatPlace, formatScore, formatTally } from "../../src/text/image";
import { channel, DRUMMER, kit, listener, randomSetup, withChannel } from "../core/recommend/setups";
import { expectNear } from "../near";
import { ANGLE_OF_DIFFERENCE } from "../tables/pulkki-1997";

const row = (sides: Sides): Pick<ImageRow, "sides" | "heard" | "difference" | "position"> => ({
  sides,
  heard: heardPlace(sides),
  difference: levelDifference(sides),
  position: lateralPosition(sides),
});
const apart = (difference: number) => row([1, gainOf(difference)]);

describe("where a channel is heard, in words", () => {
  it("with in-ear monitors: centre under 1 dB, hard at one side from 15 dB", () => {
    const said = [0, 0.9, -0.9, 1.5, -6, 14.99, 15.01, -15.01].map((d) => formatPlace("bus", apart(d)));
    expect(said).toEqual([
      "centre",
      "centre",
      "centre",
      "10 % right",
      "40 % left",
      "99 % right",
      "hard right",
      "hard left",
    ]);
    expect([row([0, 0]), row([1, 0]), row([0, 1])].map((r) => formatPlace("bus", r))).toEqual([
      "silent",
      "hard left",
      "hard right",
    ]);
  });

  it("at FOH: the pan that sin/cos would need, hard only where one loudspeaker is silent", () => {
    const at = (pan: number) =>
      row([Math.cos((Math.PI / 4) * (1 + pan)), Math.sin((Math.PI / 4) * (1 + pan))]);
    expect([0, 0.3, -0.7, 0.999].map((pan) => formatPlace("foh", at(pan)))).toEqual([
      "centre",
      "30 % right",
      "70 % left",
      "99 % right",
    ]);
    expect(formatPlace("foh", row([0, 1]))).toBe("hard right");
  });

  it("the difference has its sign, the angle its side", () => {
    expect([3, -3, 0, -0.04].map((d) => formatDifference(apart(d)))).toEqual(["+3.0", "−3.0", "0.0", "0.0"]);
    expect([row([0, 1]), row([1, 0]), row([0, 0])].map(formatDifference)).toEqual(["+∞", "−∞", "–"]);
    for (const [difference, angle] of ANGLE_OF_DIFFERENCE) {
      if (difference === 0) continue;
      const [, right] = /^([\d.]+)° right$/.exec(formatAngle(apart(difference))) ?? [];
      const [, left] = /^([\d.]+)° left$/.exec(formatAngle(apart(-difference))) ?? [];
      expect(left).toBe(right);
      // Shown to one digit; the table has three.
      expectNear(Number(right), angle, 0.0505, `${difference} dB`);
    }
    expect([row([1, 1]), row([0, 0]), row([1, 0])].map(formatAngle)).toEqual(["0°", "–", "30.0° left"]);
    expect([0.944, -1, 0].map(formatScore)).toEqual(["+0.94", "−1.00", "0.00"]);
  });
});

describe("what a listener gets, counted", () => {
  it("right, wrong, centred, unplaced, sides lost and the score", () => {
    const click = withChannel(kit(), channel("click"));
    const [audience, mara] = imagesOf(click);
    expect([audience && formatTally(audience), mara && formatTally(mara)]).toEqual([
      "5 on the right side, 0 on the wrong side, 1 not placed, score +0.67",
      "1 on the right side, 4 on the wrong side, 1 not placed, score −0.67",
    ]);
    const side = { ...kit(), listeners: [listener("rafi", { facing: 90 }), { ...DRUMMER, bus: null }] };
    expect(imagesOf(side).map(formatTally)).toEqual([
      "0 on the right side, 0 on the wrong side, 5 not placed, no score",
      "",
    ]);
  });

  it("is what the image says, in random setups", () => {
    for (let seed = 0; seed < 300; seed += 1)
      for (const image of imagesOf(randomSetup(seed))) {
        const { hears, count, sidesLost, score } = image;
        if (hears === "nothing") continue;
        const said = formatTally(image);
        const of = (what: string): number => Number(new RegExp(`(\\d+) ${what}`).exec(said)?.[1] ?? 0);
        expect([of("on the right side"), of("on the wrong side"), of("centred"), of("not placed")]).toEqual([
          count.right,
          count.wrong,
          count.centred,
          count.unplaced,
        ]);
        expect(Number(/L\/R lost on (\d+)/.exec(said)?.[1] ?? 0)).toBe(sidesLost);
        expect(said.endsWith(score === null ? "no score" : `score ${formatScore(score)}`)).toBe(true);
        expect(said).not.toMatch(/NaN|undefined|-/);
      }
  });
});
