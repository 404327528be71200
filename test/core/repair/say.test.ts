import { describe, expect, it } from "vitest";
import { LEAVE, type Own, type PairState } from "../../../src/core/repair/parts";
import type { Repair } from "../../../src/core/repair/repairs";
import { sayRepair, sayStep } from "../../../src/core/repair/say";
import type { PanMove } from "../../../src/core/repair/steps";
import type { Sum } from "../../../src/core/setup";
import { leg, sum } from "../patch/setups";
import { drumsOf, withDrums } from "./drums";

const move = (id: string): PanMove => ({ source: id, from: 0.5, to: -0.5, followed: true, error: 0 });

describe("a repair in one line", () => {
  const said = (
    pair: Partial<PairState>,
    own: readonly Own[] = [],
    steps: Repair["steps"] = [],
    more: Partial<Sum> = {},
  ) => {
    const s = withDrums(more);
    return sayRepair(s, drumsOf(s), { parts: { pair: { ...LEAVE, ...pair }, own }, steps });
  };
  const pan = (id: string) => ({ step: "pan", sum: "Drums", ...move(id) }) as const;
  const house = (id: string) => ({ step: "house pan", ...move(id) }) as const;
  const flip = (who: string): Own => ({ listener: who, choice: "flip" });

  it("says what is done with the pair", () => {
    expect(said({})).toBe("Leave Drums as it is");
    expect(said({ swap: true })).toBe("Patch Drums in reverse");
    expect(said({ fold: true })).toBe("Fold Drums to mono");
    expect(said({ pan: "sum" }, [], [pan("Hat")])).toBe("Re-pan Hat in Drums");
    expect(said({ pan: "sum" }, [], [pan("Hat"), pan("Ride")])).toBe("Re-pan 2 sources in Drums");
    expect(
      said({ swap: true, pan: "sum" }, [], [{ step: "swap", sum: "Drums", slots: null }, pan("Hat")]),
    ).toBe("Patch Drums in reverse and re-pan Hat in it");
    expect(said({ pan: "house" }, [], [house("Hat"), house("Ride")])).toBe("Move the house pan of 2 sources");
    expect(said({ pan: "house" }, [], [house("Ride")])).toBe("Move the house pan of Ride");
    const swapped = withDrums();
    swapped.monitor = { ...swapped.monitor, slots: [leg("Drums", "right"), leg("Drums", "left")] };
    expect(
      sayRepair(swapped, drumsOf(swapped), { parts: { pair: { ...LEAVE, swap: true }, own: [] }, steps: [] }),
    ).toBe("Patch Drums straight");
  });

  it("says for whom something is done alone", () => {
    expect(said({ swap: true }, [flip("ines")])).toBe(
      "Patch Drums in reverse and flip it at the mixer of Ines",
    );
    expect(said({}, [flip("ines")])).toBe("Flip Drums at the mixer of Ines");
    expect(said({ pan: "house" }, [flip("ines")], [house("Hat")])).toBe(
      "Move the house pan of Hat and flip Drums at the mixer of Ines",
    );
    expect(said({}, [flip("ines"), flip("theo")])).toBe("Flip Drums at the mixers of Ines and Theo");
    expect(said({}, [{ listener: "ines", choice: "own reversed" }])).toBe(
      "Give Ines a reversed pair of their own",
    );
    expect(
      said({}, [
        { listener: "ines", choice: "own panned" },
        { listener: "theo", choice: "own panned" },
      ]),
    ).toBe("Give Ines and Theo pairs of their own");
    expect(said({}, [{ listener: "theo", choice: "own panned" }])).toBe("Give Theo a pair of their own");
  });
});

describe("a step", () => {
  const s = withDrums();
  it("is a sentence for the desk", () => {
    expect(sayStep(s, { step: "fold", sum: "Drums" })).toBe("Fold Drums to mono.");
    expect(sayStep(s, { step: "swap", sum: "Drums", slots: [1, 0] })).toBe(
      "Patch the left leg of Drums into slot 2 and the right leg into slot 1.",
    );
    expect(sayStep(s, { step: "swap", sum: "Drums", slots: null })).toBe(
      "Plan the legs of Drums the other way round: not both have a slot yet.",
    );
    expect(sayStep(s, { step: "pan", sum: "Drums", ...move("Hat") })).toBe(
      "Set Hat in Drums to L50 (was R50, following the house).",
    );
    expect(sayStep(s, { step: "house pan", ...move("Hat"), followed: false })).toBe(
      "Set the house pan of Hat to L50 (was R50).",
    );
    expect(sayStep(s, { step: "flip", listener: "ines", flipped: true })).toBe(
      "Flip left and right at the mixer of Ines.",
    );
    expect(sayStep(s, { step: "flip", listener: "ines", flipped: false })).toBe(
      "Take the flip out at the mixer of Ines.",
    );
    const copied = (name: string) => sum("m9", [], { name });
    const own = (pans: readonly PanMove[], copy = copied("Drums for Ines")) =>
      sayStep(s, {
        step: "own pair",
        listener: "ines",
        of: "Drums",
        copy,
        slots: [3, 4],
        trims: [0, 0],
        off: [false, false],
        pans,
      });
    const COPIED =
      "Copy Drums to a new pair, “Drums for Ines”, and patch its left leg into slot 4 and its right leg into slot 5 for Ines alone.";
    expect(own([])).toBe(COPIED);
    // A name that turns the direction of writing does not turn the words behind it.
    expect(own([], copied("\u202Esmurd"))).toContain(
      " to a new pair, “\u202Esmurd\u202C”, and patch its left leg ",
    );
    expect(own([move("Hat")])).toBe(`${COPIED} In it set Hat to L50 (was R50, following the house).`);
  });
});
