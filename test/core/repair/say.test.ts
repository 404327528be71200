import { describe, expect, it } from "vitest";
import type { Bus } from "../../../src/core/model/setup";
import { LEAVE, type Own, type PairState } from "../../../src/core/repair/parts";
import type { Repair } from "../../../src/core/repair/repairs";
import { sayRepair, sayStep } from "../../../src/core/repair/say";
import type { PanMove } from "../../../src/core/repair/steps";
import { bus, side } from "../inputs/setups";
import { drumsOf, withDrums } from "./drums";

const move = (id: string): PanMove => ({ channel: id, from: 0.5, to: -0.5, followed: true, error: 0 });

describe("a recommendation in one line", () => {
  const said = (
    pair: Partial<PairState>,
    own: readonly Own[] = [],
    steps: Repair["steps"] = [],
    more: Partial<Bus> = {},
  ) => {
    const s = withDrums(more);
    return sayRepair(s, drumsOf(s), { parts: { pair: { ...LEAVE, ...pair }, own }, steps });
  };
  const pan = (id: string) => ({ step: "pan", bus: "Drums", ...move(id) }) as const;
  const foh = (id: string) => ({ step: "channel pan", ...move(id) }) as const;
  const flip = (who: string): Own => ({ listener: who, choice: "flip" });

  it("says what is done with the pair", () => {
    expect(said({})).toBe("Leave Drums as it is");
    expect(said({ swap: true })).toBe("Patch Drums in reverse");
    expect(said({ fold: true })).toBe("Fold Drums to mono");
    expect(said({ pan: "bus" }, [], [pan("Hat")])).toBe("Re-pan Hat in Drums");
    expect(said({ pan: "bus" }, [], [pan("Hat"), pan("Ride")])).toBe("Re-pan 2 channels in Drums");
    expect(
      said({ swap: true, pan: "bus" }, [], [{ step: "swap", bus: "Drums", inputs: null }, pan("Hat")]),
    ).toBe("Patch Drums in reverse and re-pan Hat in it");
    expect(said({ pan: "foh" }, [], [foh("Hat"), foh("Ride")])).toBe("Move the channel pan of 2 channels");
    expect(said({ pan: "foh" }, [], [foh("Ride")])).toBe("Move the channel pan of Ride");
    const swapped = withDrums();
    swapped.monitor = { ...swapped.monitor, inputs: [side("Drums", "right"), side("Drums", "left")] };
    expect(
      sayRepair(swapped, drumsOf(swapped), { parts: { pair: { ...LEAVE, swap: true }, own: [] }, steps: [] }),
    ).toBe("Patch Drums straight");
  });

  it("says for whom something is done alone", () => {
    expect(said({ swap: true }, [flip("ines")])).toBe(
      "Patch Drums in reverse and flip it at the mixer of Ines",
    );
    expect(said({}, [flip("ines")])).toBe("Flip Drums at the mixer of Ines");
    expect(said({ pan: "foh" }, [flip("ines")], [foh("Hat")])).toBe(
      "Move the channel pan of Hat and flip Drums at the mixer of Ines",
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
    expect(sayStep(s, { step: "fold", bus: "Drums" })).toBe("Fold Drums to mono.");
    expect(sayStep(s, { step: "swap", bus: "Drums", inputs: [1, 0] })).toBe(
      "Patch the left side of Drums into input 2 and the right side into input 1.",
    );
    expect(sayStep(s, { step: "swap", bus: "Drums", inputs: null })).toBe(
      "Plan the sides of Drums the other way round: not both have an input yet.",
    );
    expect(sayStep(s, { step: "pan", bus: "Drums", ...move("Hat") })).toBe(
      "Set Hat in Drums to L50 (was R50, following FOH).",
    );
    expect(sayStep(s, { step: "channel pan", ...move("Hat"), followed: false })).toBe(
      "Set the channel pan of Hat to L50 (was R50).",
    );
    expect(sayStep(s, { step: "flip", listener: "ines", flipped: true })).toBe(
      "Flip left and right at the mixer of Ines.",
    );
    expect(sayStep(s, { step: "flip", listener: "ines", flipped: false })).toBe(
      "Take the flip out at the mixer of Ines.",
    );
    const copied = (name: string) => bus("m9", [], { name });
    const own = (pans: readonly PanMove[], copy = copied("Drums for Ines")) =>
      sayStep(s, {
        step: "own pair",
        listener: "ines",
        of: "Drums",
        copy,
        inputs: [3, 4],
        trims: [0, 0],
        off: [false, false],
        pans,
      });
    const COPIED =
      "Copy Drums to a new pair, “Drums for Ines”, and patch its left side into input 4 and its right side into input 5 for Ines alone.";
    expect(own([])).toBe(COPIED);
    // A name that turns the direction of writing does not turn the words behind it.
    expect(own([], copied("\u202Esmurd"))).toContain(
      " to a new pair, “\u202Esmurd\u202C”, and patch its left side ",
    );
    expect(own([move("Hat")])).toBe(`${COPIED} In it set Hat to L50 (was R50, following FOH).`);
  });
});
