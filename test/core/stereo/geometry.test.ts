import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Kit } from "../../../src/core/model/setup";
import {
  facingOf,
  isSideOn,
  offStage,
  offsetFor,
  onStage,
  placeOfOffset,
} from "../../../src/core/stereo/geometry";
import { expectNear, printed } from "../../near";
import { PLACES, TURNED } from "../../tables/kit-geometry";

const kitAt = (yaw: number): Kit => ({ hand: "right", yaw, pieces: [] });
const audience = { kind: "audience", facing: 0 } as const;
const drummer = { kind: "drummer", facing: 77 } as const;
const performer = (facing: number) => ({ kind: "performer", facing }) as const;

// Without −0, which `toBe` tells from 0.
const metres = fc.double({ min: -3, max: 3, noNaN: true }).map((m) => m + 0);
const angle = fc.oneof(fc.constantFrom(-180, -90, 0, 90, 180), fc.integer({ min: -180, max: 180 }));

describe("where the kit stands", () => {
  it("turned throne: house-right coordinate by the table", () => {
    for (const [yaw, hat, floor] of TURNED) {
      const x = (px: number, py: number) => onStage(kitAt(yaw), { x: px, y: py }).x;
      expectNear(x(-0.5, 0.3), hat, printed(4), `hi-hat at ${yaw}°`);
      expectNear(x(0.5, 0.25), floor, printed(4), `floor tom at ${yaw}°`);
    }
  });

  it("whoever faces a piece by its azimuth has it in front", () => {
    for (const [name, x, y, right, left] of PLACES) {
      const room = Math.hypot(x, y) * Math.sin((printed(1) * Math.PI) / 180);
      expectNear(offsetFor(kitAt(0), performer(-right), { x, y }), 0, room, name);
      expectNear(offsetFor(kitAt(0), performer(-left), { x: -x, y }), 0, room, `${name}, left-handed`);
      if (right !== 0)
        expect(Math.abs(offsetFor(kitAt(0), performer(right), { x, y }))).toBeGreaterThan(room);
    }
  });

  it("the audience's right is house right", () => {
    fc.assert(
      fc.property(metres, metres, angle, (x, y, yaw) => {
        expectNear(offsetFor(kitAt(yaw), audience, { x, y }), onStage(kitAt(yaw), { x, y }).x, 1e-12);
      }),
    );
  });

  it("the drummer's own view never depends on the throne's turn", () => {
    fc.assert(
      fc.property(metres, metres, angle, (x, y, yaw) => {
        expect(offsetFor(kitAt(yaw), drummer, { x, y })).toBe(x);
      }),
    );
  });

  it("the audience sees a mirror of a drummer who faces it, and the drummer's own view from behind, exactly", () => {
    fc.assert(
      fc.property(metres, metres, (x, y) => {
        expect(offsetFor(kitAt(0), audience, { x, y }) + x).toBe(0);
        expect(offsetFor(kitAt(180), audience, { x, y })).toBe(x);
      }),
    );
  });

  it("there and back again", () => {
    fc.assert(
      fc.property(metres, metres, angle, (x, y, yaw) => {
        const back = offStage(kitAt(yaw), onStage(kitAt(yaw), { x, y }));
        expectNear(back.x, x, 1e-12);
        expectNear(back.y, y, 1e-12);
      }),
    );
  });

  it("side-on is closer than 20° to a right angle with the kit", () => {
    for (const [facing, sideOn] of [
      [0, false],
      [69, false],
      [70, false],
      [71, true],
      [90, true],
      [109, true],
      [110, false],
      [111, false],
      [180, false],
      [-90, true],
      [-71, true],
      [-70, false],
    ] as const) {
      for (let tenths = -1800; tenths <= 1800; tenths += 1) {
        const yaw = tenths / 10;
        const turned = performer((10 * facing + tenths) / 10);
        expect(isSideOn(kitAt(yaw), turned), `${facing}° turned by ${yaw}°`).toBe(sideOn);
      }
    }
    expect(isSideOn(kitAt(90), audience)).toBe(true);
    expect(isSideOn(kitAt(90), drummer)).toBe(false);
  });

  it("the drummer faces with the throne, the audience the stage, others as they are set", () => {
    expect(facingOf(kitAt(40), drummer)).toBe(40);
    expect(facingOf(kitAt(40), audience)).toBe(180);
    expect(facingOf(kitAt(40), performer(-15))).toBe(-15);
  });

  it("a hand's width off the middle line is the middle", () => {
    expect([-0.5, -0.12, -0.119, 0, 0.119, 0.12].map(placeOfOffset)).toEqual([
      "left",
      "left",
      "middle",
      "middle",
      "middle",
      "right",
    ]);
  });
});
