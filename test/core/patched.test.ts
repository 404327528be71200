import { describe, expect, it } from "vitest";
import {
  isReversed,
  patchedOrder,
  slotOfLeg,
  slotTrims,
  withLegsExchanged,
  withPairSwapped,
} from "../../src/core/patched";
import type { Setup, Slot, Sum } from "../../src/core/setup";
import { kit, leg, SUM } from "./repair/setups";

const L = leg("m1", "left", 1);
const R = leg("m1", "right", -2);
const at = (slots: readonly (Slot | null)[], over: Partial<Sum> = {}): Setup =>
  kit({ sums: [{ ...SUM, ...over }], monitor: { slotCount: 8, slots, inputMaxDbu: 20 } });
const order = (slots: readonly (Slot | null)[]) => patchedOrder(at(slots).monitor, SUM);

describe("a pair in the slots", () => {
  it("lies straight, reversed, split, partly or not at all", () => {
    expect(order([null, L, R])).toBe("straight");
    expect(order([R, L])).toBe("reversed");
    expect(order([L, null, R])).toBe("split");
    expect(order([L])).toBe("partly");
    expect(order([null, R])).toBe("partly");
    expect(order([leg("m2", "left"), leg("m2", "right")])).toBe("not patched");
  });

  it("is reversed as it lies; where that does not tell, as it is meant", () => {
    for (const reversed of [false, true]) {
      const is = (slots: readonly (Slot | null)[]) =>
        isReversed(at(slots, { reversed }), { ...SUM, reversed });
      expect(is([L, R])).toBe(false);
      expect(is([R, L])).toBe(true);
      for (const slots of [[L, null, R], [L], []]) expect(is(slots)).toBe(reversed);
    }
  });

  it("keeps each slot's trim when it is swapped, and swapped twice is as it was", () => {
    for (const slots of [[L, R], [R, L], [L, null, R], [null, L], [], [L, L, R]]) {
      const setup = at(slots);
      const sum = setup.sums[0] as Sum;
      const once = withPairSwapped(setup, sum);
      expect(isReversed(once, once.sums[0] as Sum)).toBe(!isReversed(setup, sum));
      expect(once.monitor.slots.map((s) => s?.trim)).toEqual(setup.monitor.slots.map((s) => s?.trim));
      const twice = withPairSwapped(once, once.sums[0] as Sum);
      expect(twice.monitor).toEqual(setup.monitor);
      expect(isReversed(twice, twice.sums[0] as Sum)).toBe(isReversed(setup, sum));
    }
    const setup = at([L, R]);
    const once = withPairSwapped(setup, setup.sums[0] as Sum);
    expect(slotTrims(setup.monitor, SUM)).toEqual([1, -2]);
    expect(slotTrims(once.monitor, SUM)).toEqual([-2, 1]);
    expect(slotOfLeg(once.monitor, SUM, "left")).toBe(1);
  });

  it("of which only one leg has a slot leaves it there when it is swapped: only the plan changes", () => {
    for (const slots of [[L], [R]]) {
      const setup = at(slots);
      const once = withPairSwapped(setup, setup.sums[0] as Sum);
      expect(once.monitor.slots).toEqual(slots);
      expect(once.sums[0]?.reversed).toBe(true);
    }
  });

  it("changes places without touching another pair or a slot with nothing in it", () => {
    const others = [leg("m2", "left"), null, leg("m2", "right")];
    expect(withLegsExchanged(at([L, R, ...others]).monitor, SUM).slots).toEqual([
      { ...L, feed: { ...L.feed, leg: "right" } },
      { ...R, feed: { ...R.feed, leg: "left" } },
      ...others,
    ]);
  });
});
