import { describe, expect, it } from "vitest";
import { gainOf } from "../../src/core/level/decibels";
import type { Setup } from "../../src/core/model/setup";
import { isMiddle, isSideOn, offsetFor, placeOfOffset } from "../../src/core/stereo/geometry";
import { imagesOf } from "../../src/core/stereo/image";
import { agreementOf } from "../../src/core/stereo/placement";
import { earPosition, heardPlace, levelDifference, placeAt } from "../../src/core/stereo/position";
import { channel, kit, piece } from "./recommend/setups";

/*
 * What is exactly at a limit by what was typed must not fall to this side or that by the rounding of the arithmetic.
 */
const LEVELS = Array.from({ length: 400 }, (_, i) => -90 + 0.3 * i);
/** Two gains that are so many dB apart, at many levels. */
const apart = (db: number) => LEVELS.map((level) => [gainOf(level), gainOf(level + db)] as const);

describe("a difference at a limit", () => {
  it("comes out on both sides of it by rounding alone, so that there is something to hold", () => {
    for (const db of [1, 6, 15]) {
      const differences = apart(db).map(levelDifference);
      expect(
        differences.some((d) => d < db),
        `${db} dB`,
      ).toBe(true);
      expect(
        differences.some((d) => d > db),
        `${db} dB`,
      ).toBe(true);
    }
  });

  it("of 1 dB is at a side, whichever way; 0.99 dB is in the middle", () => {
    for (const [soft, loud] of apart(1)) {
      expect(heardPlace([soft, loud])).toBe("right");
      expect(heardPlace([loud, soft])).toBe("left");
    }
    for (const sides of apart(0.99)) expect(heardPlace(sides)).toBe("middle");
  });

  it("of 6 dB is still right for a piece in the middle; 6.01 dB is not", () => {
    for (const sides of apart(6)) expect(agreementOf("middle", levelDifference(sides))).toBe("right");
    for (const sides of apart(6.01)) expect(agreementOf("middle", levelDifference(sides))).toBe("centred");
  });

  it("of 15 dB is fully at the side; 14.99 dB is not", () => {
    for (const [soft, loud] of apart(15)) {
      expect(earPosition(levelDifference([soft, loud]))).toBe(1);
      expect(earPosition(levelDifference([loud, soft]))).toBe(-1);
    }
    for (const sides of apart(14.99)) expect(earPosition(levelDifference(sides))).toBeLessThan(1);
    expect([earPosition(Number.POSITIVE_INFINITY), earPosition(Number.NEGATIVE_INFINITY)]).toEqual([1, -1]);
    expect([earPosition(0), placeAt(0)]).toEqual([0, "middle"]);
  });
});

describe("a place at a limit", () => {
  /** Places that are so far to the right of whoever faces 37°, turned there by the arithmetic. */
  const turned = (offset: number): number[] =>
    Array.from({ length: 200 }, (_, i) => {
      const facing = -180 + 1.7 * i;
      const angle = (facing * Math.PI) / 180;
      const along = 0.01 * i;
      const at = {
        x: offset * Math.cos(angle) - along * Math.sin(angle),
        y: offset * Math.sin(angle) + along * Math.cos(angle),
      };
      return offsetFor({ hand: "right", yaw: 0, pieces: [] }, { kind: "performer", facing }, at);
    });

  it("of 0.12 m from the middle line stands at its side; nearer is in the middle", () => {
    const offsets = turned(0.12);
    expect(offsets.some((o) => o < 0.12)).toBe(true);
    for (const offset of offsets) expect(placeOfOffset(offset)).toBe("right");
    for (const offset of turned(-0.12)) expect(placeOfOffset(offset)).toBe("left");
    for (const offset of turned(0.1199)) expect(isMiddle(offset)).toBe(true);
  });

  it("of 20° from side-on is not side-on, whichever way the throne is turned", () => {
    for (let yaw = -180; yaw <= 180; yaw += 0.1)
      for (const [off, is] of [
        [70, false],
        [110, false],
        [70.01, true],
        [109.99, true],
      ] as const) {
        const setup: Pick<Setup, "kit"> = { kit: { hand: "right", yaw, pieces: [] } };
        expect(isSideOn(setup.kit, { kind: "performer", facing: yaw + off }), `${yaw} ${off}`).toBe(is);
      }
  });

  it("and a piece there is counted alike for two who face each other", () => {
    const setup = kit({
      kit: { hand: "right", yaw: 0, pieces: [piece("edge", 0.12)] },
      channels: [channel("hat", { piece: "edge", pan: -0.7 })],
    });
    const stands = imagesOf(setup).map((image) => image.rows[0]?.stands);
    expect(stands).toEqual(["left", "right"]);
  });
});
