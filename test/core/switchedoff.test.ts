import { describe, expect, it } from "vitest";
import { type Image, imagesOf } from "../../src/core/image";
import { legsOff, slotGains, slotOfLeg, slotTrims } from "../../src/core/patched";
import { applyRepair, type Outcome, repairsFor } from "../../src/core/repair/repairs";
import { situationOf } from "../../src/core/repair/situation";
import type { Listener, Setup, Slot, Sum } from "../../src/core/setup";
import { imageStatement } from "../../src/core/statements";
import { expectNear } from "../near";
import { DRUMMER, kit, leg, randomSetup, SUM } from "./repair/setups";

const L = leg("m1", "left");
const R = leg("m1", "right", -6);
const off = (slot: Slot): Slot => ({ ...slot, on: false });
const at = (
  slots: readonly (Slot | null)[],
  sum: Partial<Sum> = {},
  mara: Partial<Listener> = {},
): Setup => ({
  ...kit({ monitor: { slotCount: 8, slots, inputMaxDbu: 20 } }),
  sums: kit().sums.map((s) => ({ ...s, ...sum })),
  listeners: [{ ...DRUMMER, ...mara }],
});
/** The hi-hat all the way at a side, the kick in both legs. */
const apart = (pan: number) => [
  { source: "hat", level: 0, pan },
  { source: "kick", level: 0, pan: 0 },
];
const imageOf = (setup: Setup): Image => imagesOf(setup)[0] as Image;
const said = (setup: Setup) => imageStatement(setup, setup.listeners[0] as Listener, imageOf(setup));

describe("a leg whose slot is off", () => {
  it("is silent in its ear and changes nothing in the other", () => {
    const whole = imageOf(at([L, R])).rows;
    const half = imageOf(at([off(L), R])).rows;
    expect(half).toHaveLength(whole.length);
    half.forEach((row, i) => {
      expect(row.legs).toEqual([0, whole[i]?.legs[1]]);
      expect(row.difference).toBe(Number.POSITIVE_INFINITY);
      expect(row.heard).toBe("right");
    });
    expect(imageOf(at([off(L), off(R)])).rows.every((r) => r.heard === null)).toBe(true);
    expect(imageOf(at([off(L), off(R)])).score).toBe(null);
  });

  it("leaves both ears alike where the listener folds them", () => {
    const whole = imageOf(at([L, R])).rows;
    imageOf(at([off(L), R], {}, { mono: true })).rows.forEach((row, i) => {
      expect(row.legs).toEqual([whole[i]?.legs[1], whole[i]?.legs[1]]);
    });
  });

  it("arrives all the same by another slot that is on", () => {
    const twice = [off(L), R, leg("m1", "left", -3)];
    expect(slotOfLeg(at(twice).monitor, SUM, "left")).toBe(2);
    expect(slotTrims(at(twice).monitor, SUM)).toEqual([-3, -6]);
    expect(legsOff(at(twice).monitor, SUM)).toEqual([false, false]);
    expect(legsOff(at([off(L), R, off(L)]).monitor, SUM)).toEqual([true, false]);
  });

  it("has gain 0; on, that of its trim; without a slot, 1", () => {
    const [left, right] = slotGains(at([off(L), R]).monitor, SUM);
    expect(left).toBe(0);
    expectNear(right, 0.5011872336272722, 1e-15);
    expect(slotGains(at([]).monitor, SUM)).toEqual([1, 1]);
  });

  it("of a mono sum is both ears: one slot for both, its trim too", () => {
    const rows = (slot: Slot) => imageOf(at([slot], { stereo: false })).rows.map((r) => r.legs);
    expect(rows(off(L))).toEqual(kit().sources.map(() => [0, 0]));
    for (const [left, right] of rows({ ...L, trim: -4 })) expect(left).toBe(right);
    expect(rows({ ...L, trim: -4 })).not.toEqual(rows(L));
  });
});

describe("what is said of a leg that is off", () => {
  it.each([
    [
      [off(L), R],
      {},
      {},
      "The left leg of Drums is off: Mara hears only the right one, in the right ear",
      [1],
    ],
    [
      [R, off(L)],
      {},
      {},
      "The left leg of Drums is off: Mara hears only the right one, in the left ear",
      [2],
    ],
    [
      [L, off(R)],
      {},
      {},
      "The right leg of Drums is off: Mara hears only the left one, in the left ear",
      [2],
    ],
    [
      [L, off(R)],
      {},
      { flipped: true },
      "The right leg of Drums is off: Mara hears only the left one, in the right ear",
      [2],
    ],
    [
      [L, off(R)],
      {},
      { mono: true },
      "The right leg of Drums is off: Mara hears only the left one, in both ears",
      [2],
    ],
    [[null, off(R), off(L)], {}, {}, "Both legs of Drums are off: Mara hears nothing of it", [2, 3]],
    [[null, off(L)], { stereo: false }, {}, "Drums is off: Mara hears nothing of it", [2]],
    // The hi-hat is panned away from the leg that is left; the rest is still heard.
    [
      [L, off(R)],
      { sends: apart(1) },
      {},
      "The right leg of Drums is off: Mara hears only the left one, in the left ear",
      [2],
    ],
    [
      [off(L), R],
      { sends: apart(-1) },
      {},
      "The left leg of Drums is off: Mara hears only the right one, in the right ear",
      [1],
    ],
    // All that is left is panned to the other side.
    [
      [L, off(R)],
      { sends: [{ source: "hat", level: 0, pan: 1 }] },
      {},
      "The right leg of Drums is off: Mara hears nothing of it",
      [2],
    ],
  ] as const)("%#", (slots, sum, mara, says, switches) => {
    const which = switches.length === 1 ? `slot ${switches[0]}` : `slots ${switches.join(" and ")}`;
    expect(said(at(slots, sum, mara))).toEqual({
      tone: "care",
      says,
      more: `Switch ${which} on at the patch.`,
    });
  });

  it("is nothing where each leg is on, or the audience listens", () => {
    expect(said(at([L, leg("m1", "right")])).says).toBe("Reversed for Mara: 4 of 5 on the wrong side");
    const house = { ...at([off(L), off(R)]), listeners: kit().listeners };
    const [audience] = house.listeners.filter((l) => l.kind === "audience") as [Listener];
    const image = imagesOf(house).find((i) => i.listener === audience.id) as Image;
    expect(imageStatement(house, audience, image).says).toBe("Correct for the audience: every side agrees");
  });

  it("comes first among the reasons of a repair, and is gone once it is on", () => {
    const why = (slots: readonly (Slot | null)[]): string => {
      const setup = at(slots);
      return repairsFor(situationOf(setup, setup.sums[0] as Sum)).advice.why;
    };
    expect(why([off(L), R])).toMatch(
      /^The left leg of Drums is off, and all of this is reckoned so\. Switch slot 1 on at the patch\. /,
    );
    expect(why([L, R])).not.toContain("off, and");
  });
});

it("a pair of one's own takes over what is off, so that its image is as promised", () => {
  let seen = 0;
  for (const seed of [76, 224, 539, 607, 736]) {
    const setup = randomSetup(seed);
    const sum = setup.sums[0] as Sum;
    const off = legsOff(setup.monitor, sum);
    expect(off).toContain(true);
    for (const repair of repairsFor(situationOf(setup, sum)).ranked.filter((r) => r.criteria.slots > 0)) {
      const after = applyRepair(setup, repair);
      for (const copy of after.sums.filter((s) => !setup.sums.some((was) => was.id === s.id))) {
        expect(legsOff(after.monitor, copy)).toEqual(off);
        seen += 1;
      }
      imagesOf(after).forEach(({ count, sidesLost }, i) => {
        const { tally } = repair.outcomes[i] as Outcome;
        const { score: _, ...promised } = tally;
        expect({ ...count, sidesLost }).toEqual(promised);
      });
    }
  }
  expect(seen).toBeGreaterThan(4);
});
