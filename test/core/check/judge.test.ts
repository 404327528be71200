import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ANSWERS } from "../../../src/core/check/answers";
import { type Check, checkOf, type FaultSet } from "../../../src/core/check/check";
import {
  CLOSE,
  judge,
  LEAST_HITS,
  SURE,
  SURE_DESPITE,
  SURE_UNKNOWN,
  type Verdict,
} from "../../../src/core/check/judge";
import { progressOf } from "../../../src/core/check/progress";
import { mostHits } from "../../../src/core/check/session";
import type { Answer, Bus, Hit, Id, Listener, Setup } from "../../../src/core/model/setup";
import { drummer, setupWith } from "./kits";
import { asAsked, play } from "./simulate";

const setup = setupWith(8, "sine");
const check = checkOf(setup, drummer);

/** What a drummer with this in the ears says, always. */
const says = (answers: { readonly [piece: Id]: Answer }) => (piece: Id) => answers[piece] ?? "unclear";
const verdictOf = (answers: { readonly [piece: Id]: Answer }, of: Check = check): Verdict =>
  play(of, says(answers), asAsked).verdict;
const faultOf = (verdict: Verdict) =>
  verdict.kind === "found" ? verdict.found.set.faults.map((f) => f.id) : verdict.kind;

const PLANNED = {
  kick: "middle",
  snare: "middle",
  hat: "left",
  tom1: "left",
  tom2: "right",
  floor: "right",
} as const;
const REVERSED = {
  kick: "middle",
  snare: "middle",
  hat: "right",
  tom1: "right",
  tom2: "left",
  floor: "left",
} as const;

describe("a verdict", () => {
  it("says as planned, with nothing to do and a hit that proves it", () => {
    const verdict = verdictOf(PLANNED);
    expect(faultOf(verdict)).toEqual(["planned"]);
    expect(verdict).toMatchObject({ sure: true, remedies: ["Nothing to do."] });
    if (verdict.kind !== "found" || !verdict.proof) throw new Error("no proof");
    expect(verdict.proof.now).toBe(verdict.proof.planned);
  });

  it("says reversed, at the patch or at the mixer, with both places to look and what must be heard after", () => {
    const verdict = verdictOf(REVERSED);
    expect(faultOf(verdict)).toEqual(["reversed", "flipped"]);
    if (verdict.kind !== "found" || !verdict.proof) throw new Error("no proof");
    expect(verdict.remedies).toEqual([
      "At the patch, swap the two sides of Drums.",
      "At the listener’s own mixer, flip left and right back.",
    ]);
    expect(verdict.found.confidence).toBeGreaterThanOrEqual(SURE);
    expect(verdict.proof).toEqual({
      piece: verdict.proof.piece,
      now: REVERSED[verdict.proof.piece as keyof typeof REVERSED],
      planned: PLANNED[verdict.proof.piece as keyof typeof PLANNED],
    });
    expect(verdict.proof.now).not.toBe(verdict.proof.planned);
  });

  it.each([
    [{ ...PLANNED, tom1: "nothing" }, ["channel missing tom1"]],
    [{ ...PLANNED, floor: "left" }, ["channel wrong floor"]],
    [{ ...PLANNED, kick: "unclear", snare: "unclear" }, ["inverted"]],
  ] as const)("of one thing wrong %#", (answers, ids) => {
    expect(faultOf(verdictOf(answers))).toEqual(ids);
  });

  it("is proved by the hit that changes most: what is missing by hitting it", () => {
    for (const { piece } of check.strikes) {
      const verdict = verdictOf({ ...PLANNED, [piece]: "nothing" });
      const planned = says(PLANNED)(piece);
      expect(verdict).toMatchObject({ kind: "found", proof: { piece, now: "nothing", planned } });
    }
  });

  it("survives one wrong word", () => {
    for (const slipped of check.strikes.map((s) => s.piece)) {
      let first = true;
      const { verdict } = play(
        check,
        (piece) => {
          const slips = piece === slipped && first;
          if (slips) first = false;
          return slips ? (piece === "kick" || piece === "snare" ? "left" : "nothing") : says(REVERSED)(piece);
        },
        asAsked,
      );
      expect(faultOf(verdict)).toContain("reversed");
    }
  });

  it("never rests on fewer hits than the least, and never asks for more than the most", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...ANSWERS), { minLength: 40, maxLength: 40 }), (answers) => {
        let at = 0;
        const { verdict, hits } = play(check, () => answers[at++] ?? "left", asAsked);
        expect(hits.length).toBeLessThanOrEqual(mostHits(check));
        if (verdict.kind === "found" && verdict.sure) expect(hits.length).toBeGreaterThanOrEqual(LEAST_HITS);
      }),
    );
  });

  it("comes with the last hit it asks for, though it is not sure", () => {
    // The kick in the middle says nothing of where the sides are.
    const hits = Array.from({ length: mostHits(check) }, (): Hit => ({ piece: "kick", answer: "middle" }));
    expect(judge(check, hits.slice(1)).kind).toBe("asking");
    expect(judge(check, hits)).toMatchObject({ kind: "found", sure: false });
  });

  it("takes an answer back by a list without it", () => {
    const hits: Hit[] = [{ piece: "hat", answer: "right" }];
    const more: Hit[] = [...hits, { piece: "kick", answer: "left" }];
    expect(judge(check, more)).not.toEqual(judge(check, hits));
    expect(judge(check, more.slice(0, 1))).toEqual(judge(check, hits));
  });

  it("names the second-best when it is close, and only then", () => {
    const hits: Hit[] = [
      { piece: "floor", answer: "left" },
      { piece: "hat", answer: "left" },
      { piece: "kick", answer: "middle" },
      { piece: "floor", answer: "left" },
    ];
    const close = judge(check, hits);
    if (close.kind !== "found") throw new Error("not found");
    expect(faultOf(close)).toEqual(["channel wrong floor"]);
    // Had the hat been a slip, all else says reversed.
    expect(close.second?.set.faults.map((f) => f.id)).toEqual(["reversed", "flipped"]);
    const second = check.sets.find((s) => s.faults[0]?.id === "reversed") as FaultSet;
    expect(close.second?.confidence).toBe(close.belief.sets[check.sets.indexOf(second)]);
    expect(close.second?.confidence).toBeGreaterThanOrEqual(CLOSE);
    const clear = verdictOf(PLANNED);
    if (clear.kind !== "found") throw new Error("not found");
    expect(clear.second).toBeNull();
    const others = clear.belief.sets.filter((chance) => chance !== clear.found.confidence);
    expect(Math.max(...others)).toBeLessThan(CLOSE);
  });

  it("must be surer where an answer speaks against it", () => {
    const sides: Hit[] = [
      { piece: "floor", answer: "left" },
      { piece: "hat", answer: "middle" },
      { piece: "hat", answer: "right" },
    ];
    const odd = judge(check, sides);
    if (odd.kind === "cannot check") throw new Error("cannot check");
    const most = Math.max(...odd.belief.sets);
    expect(most).toBeGreaterThan(SURE);
    expect(most).toBeLessThan(SURE_DESPITE);
    expect(odd.kind).toBe("asking");
    const all: Hit[] = sides.map((hit) => (hit.answer === "middle" ? { ...hit, answer: "right" } : hit));
    expect(faultOf(judge(check, all))).toContain("reversed");
  });
});

describe("what fits no fault", () => {
  const IMPOSSIBLE = [
    { kick: "left", snare: "right", hat: "nothing", tom1: "unclear", tom2: "left", floor: "nothing" },
    { kick: "nothing", snare: "left", hat: "nothing", tom1: "unclear", tom2: "nothing", floor: "left" },
    { kick: "right", snare: "unclear", hat: "middle", tom1: "nothing", tom2: "right", floor: "unclear" },
  ] as const;

  it.each(IMPOSSIBLE)("is called unknown, with what was heard %#", (answers) => {
    const { verdict, hits } = play(check, says(answers), asAsked);
    expect(verdict).toMatchObject({ kind: "unknown", heard: hits });
    if (verdict.kind === "unknown") expect(verdict.confidence).toBeGreaterThanOrEqual(SURE_UNKNOWN);
  });

  it("is called unknown when each piece is called otherwise every time", () => {
    let turn = 0;
    const { verdict } = play(check, () => ANSWERS[turn++ % ANSWERS.length] ?? "left", asAsked);
    expect(verdict.kind).toBe("unknown");
  });

  it("is called unknown when three channels are missing at once", () => {
    const gone = { ...PLANNED, snare: "nothing", tom1: "nothing", floor: "nothing" } as const;
    const hits: Hit[] = check.strikes.flatMap(({ piece }) =>
      [0, 1].map((): Hit => ({ piece, answer: says(gone)(piece) })),
    );
    expect(judge(check, hits).kind).toBe("unknown");
  });
});

describe("progress", () => {
  it("starts at nothing, stays within 0 and 1, and is whole only with a verdict", () => {
    expect(progressOf(check, [])).toBe(0);
    const { hits } = play(check, says(REVERSED), asAsked);
    for (let at = 1; at < hits.length; at++) {
      const progress = progressOf(check, hits.slice(0, at));
      expect(progress).toBeGreaterThanOrEqual(0);
      expect(progress).toBeLessThan(1);
    }
    expect(progressOf(check, hits)).toBe(1);
  });
});

describe("what cannot be checked", () => {
  const why = (of: Setup, listener: Listener) => {
    const verdict = judge(checkOf(of, listener), []);
    return verdict.kind === "cannot check" ? verdict.why : verdict.kind;
  };

  it("says why", () => {
    expect(why(setup, { ...drummer, kind: "audience" })).toBe("The audience hears FOH, not a bus.");
    expect(why(setup, { ...drummer, bus: null })).toBe(
      "The drummer hears no bus. Choose which bus is heard.",
    );
    const silent: Bus = { ...(setup.buses[0] as Bus), sends: [] };
    expect(why({ ...setup, buses: [silent] }, drummer)).toBe("No piece of the kit sounds in Drums.");
  });

  it("is not a mono bus: channels can still be missing", () => {
    const mono = checkOf({ ...setup, buses: [{ ...(setup.buses[0] as Bus), stereo: false }] }, drummer);
    const middle = Object.fromEntries(check.strikes.map((s) => [s.piece, "middle" as Answer]));
    expect(faultOf(verdictOf(middle, mono))).toContain("planned");
    expect(faultOf(verdictOf({ ...middle, hat: "nothing" }, mono))).toEqual(["channel missing hat"]);
  });

  it("is not another listener of the same bus", () => {
    const singer: Listener = {
      ...drummer,
      id: "singer",
      name: "Singer",
      kind: "performer",
      y: 3,
      flipped: true,
    };
    expect(faultOf(verdictOf(REVERSED, checkOf(setup, singer)))).toEqual(["planned"]);
  });
});

const hatAlone = (): Check =>
  checkOf({ ...setup, channels: setup.channels.map((s) => ({ ...s, muted: s.id !== "hat" })) }, drummer);

it("one piece alone is asked twice, and what is found of it says how sure it is", () => {
  const one = hatAlone();
  expect(one.strikes).toHaveLength(1);
  const { verdict, hits } = play(one, () => "right", asAsked);
  expect(hits).toHaveLength(2);
  expect(verdict).toMatchObject({ kind: "found", sure: false });
});

it("one piece alone that is twice unclear is called unknown, for want of hits before that is sure", () => {
  const { verdict, hits } = play(hatAlone(), () => "unclear", asAsked);
  expect(hits).toHaveLength(2);
  if (verdict.kind !== "unknown") throw new Error("not unknown");
  expect(verdict.confidence).toBeGreaterThan(Math.max(...verdict.belief.sets));
  expect(verdict.confidence).toBeLessThan(SURE_UNKNOWN);
});
