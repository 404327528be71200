import { describe, expect, it } from "vitest";
import { adviceOf } from "../../../src/core/repair/advice";
import { LEAVE } from "../../../src/core/repair/parts";
import type { Repair } from "../../../src/core/repair/repairs";
import { situationOf } from "../../../src/core/repair/situation";
import type { Tally } from "../../../src/core/stereo/placement";
import { drumsOf, withDrums } from "./drums";

const NONE: Tally = { right: 2, wrong: 0, centred: 0, unplaced: 0, sidesLost: 0, score: 1 };
const tally = (more: Partial<Tally>): Tally => ({ ...NONE, ...more });

/** A recommendation as it would be ranked, with what Mara and then Ines and Theo together would have. */
const repair = (
  id: string,
  mara: Partial<Tally>,
  others: Partial<Tally> = {},
  criteria: Partial<Repair["criteria"]> = {},
) =>
  ({
    id,
    parts: { pair: { ...LEAVE, swap: id === "swap", fold: id === "fold" }, own: [] },
    criteria: { inputs: 0, moves: 0, residual: 0, ...criteria },
    outcomes: [
      { listener: "l1", tally: NONE },
      { listener: "ines", tally: tally(others) },
      { listener: "mara", tally: tally(mara) },
      { listener: "theo", tally: NONE },
    ],
    steps: [],
    foh: [],
    notes: [],
  }) as unknown as Repair;

const advice = (...ranked: Repair[]) => {
  const s = withDrums();
  return adviceOf(situationOf(s, drumsOf(s)), ranked);
};

describe("why a recommendation is best", () => {
  const why = (
    mara: readonly [Partial<Tally>, Partial<Tally>],
    others: readonly [Partial<Tally>, Partial<Tally>] = [{}, {}],
  ) => advice(repair("swap", mara[1], others[1], { moves: 1 }), repair("leave", mara[0], others[0])).why;

  it("is told of the one who matters most", () => {
    expect(why([{ wrong: 1 }, {}])).toMatch(/^Mara then has every side correct; 1 was wrong\. /);
    expect(why([{ wrong: 3 }, {}])).toMatch(/^Mara then has every side correct; 3 were wrong\. /);
    expect(why([{ wrong: 3 }, { centred: 1 }])).toMatch(/^Mara then has no side wrong; 3 were wrong\. /);
    expect(why([{ wrong: 3 }, { wrong: 1 }])).toMatch(/^Mara then has 1 side wrong instead of 3\. /);
    expect(why([{ wrong: 2 }, { wrong: 2 }])).toMatch(
      /^Mara has 2 sides wrong, and nothing improves that\. /,
    );
    expect(why([{ centred: 2 }, { centred: 1 }])).toMatch(/^Mara then has 1 without a side instead of 2\. /);
    expect(why([{}, {}])).toMatch(/^Mara has every side correct\. /);
    expect(why([{ centred: 1 }, { centred: 1 }])).toMatch(
      /^Mara has no side wrong, but 1 source flat: only their pans can change that\. /,
    );
    expect(why([{ right: 0 }, {}])).toMatch(/^Mara hears nothing of it that has a side\. /);
  });

  it("is told of the others", () => {
    const of = (before: Partial<Tally>, after: Partial<Tally>) => why([{}, {}], [before, after]);
    expect(of({}, {})).not.toContain("others");
    expect(of({ wrong: 1 }, {})).toContain(
      " Everybody else who can tell the sides then has every side correct; before, 1 was wrong there. ",
    );
    expect(of({ wrong: 2 }, { centred: 1 })).toContain(
      " Everybody else who can tell the sides then has no side wrong; before, 2 were wrong there. ",
    );
    expect(of({ wrong: 1 }, { wrong: 1 })).toContain(" For the others 1 side stays wrong. ");
    expect(of({ wrong: 2 }, { wrong: 2 })).toContain(" For the others 2 sides stay wrong. ");
    expect(of({ wrong: 3 }, { wrong: 1 })).toContain(" For the others 1 side is wrong then instead of 3. ");
    expect(of({}, { wrong: 2 })).toContain(" For the others 2 sides are wrong then instead of 0. ");
  });

  it("is told of its cost, but not where nothing is done", () => {
    expect(why([{ wrong: 1 }, {}])).toMatch(/ It takes 1 move and no slot; the house notices nothing\. /);
    expect(advice(repair("leave", {})).why).toBe("Mara has every side correct already.");
  });
});

describe("what speaks against the second best", () => {
  const LEFT = repair("leave", { wrong: 2 }, { wrong: 2 });
  const against = (
    mara: Partial<Tally>,
    others: Partial<Tally> = {},
    criteria: Partial<Repair["criteria"]> = {},
  ) => {
    const best = repair(
      "swap",
      { wrong: 1, centred: 1 },
      { wrong: 1 },
      { inputs: 1, moves: 2, residual: 0.1 },
    );
    const next = repair(
      "fold",
      { wrong: 1, centred: 1, ...mara },
      { wrong: 1, ...others },
      { inputs: 1, moves: 2, residual: 0.1, ...criteria },
    );
    return /Second best, “Fold Drums to mono”, (.*)\.$/.exec(advice(best, next, LEFT).why)?.[1];
  };

  it("is first what is worse for the one who matters most", () => {
    expect(against({ wrong: 2 })).toBe("leaves 1 more side wrong for Mara");
    expect(against({ wrong: 4 })).toBe("leaves 3 more sides wrong for Mara");
    expect(against({ centred: 2 })).toBe("leaves 1 more channel flat for Mara");
    expect(against({ centred: 3 })).toBe("leaves 2 more channels flat for Mara");
    expect(against({ score: 0.5 })).toBe("is less clear for Mara");
  });

  it("then for the others, then inputs, moves and what is not exact", () => {
    expect(against({}, { wrong: 3 })).toBe("leaves 2 more sides wrong for the others");
    expect(against({}, {}, { inputs: 2, moves: 1 })).toBe("takes 1 more input");
    expect(against({}, {}, { inputs: 3 })).toBe("takes 2 more inputs");
    expect(against({}, {}, { moves: 3 })).toBe("takes 1 more move");
    expect(against({}, {}, { moves: 5 })).toBe("takes 3 more moves");
    expect(against({}, {}, { residual: 0.35 })).toBe("is 0.25 dB less exact");
  });
});

describe("a sum of which nothing can be said", () => {
  const of = (s: ReturnType<typeof withDrums>) => adviceOf(situationOf(s, drumsOf(s)), [repair("leave", {})]);

  it("says why, and what to do", () => {
    expect(of(withDrums({}, []))).toEqual({
      headline: "Nothing sounds in Drums",
      why: "Send a channel into it that is not muted.",
    });
    const alone = withDrums();
    alone.listeners = alone.listeners.map((l) => ({ ...l, bus: null }));
    expect(of(alone)).toEqual({
      headline: "Nobody hears Drums",
      why: "Say who hears it, and it can be said what is best for them.",
    });
    const same = "Both ears get the same: nothing can be reversed, nothing put right.";
    expect(of(withDrums({ folded: true }))).toEqual({ headline: "Drums is folded to mono", why: same });
    expect(of(withDrums({ stereo: false }))).toEqual({ headline: "Drums is mono", why: same });
  });
});
