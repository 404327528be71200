import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Check, checkOf, type Probe } from "../../../src/core/check/check";
import { CLOSE, decide, isPlanned, LEAST_HITS, progressOf, SURE } from "../../../src/core/check/decide";
import type { Decision } from "../../../src/core/check/decision";
import { ENOUGH_PLANNED } from "../../../src/core/check/leading";
import { mostHits, posteriorOf } from "../../../src/core/check/posterior";
import { predicted, priorJoint } from "../../../src/core/check/responses";
import { ANSWERS } from "../../../src/core/model/kinds";
import type { Action, Answer, Hit, Id, Setup } from "../../../src/core/model/setup";
import { drummer, setupWith } from "./kits";
import { cellOf } from "./sessions";
import { candidateOf, foundIds, hearsSurely, hitOf, play } from "./simulate";

const setup = setupWith(8, "sine");
const check = checkOf(setup, drummer);
type Found = Extract<Decision, { kind: "found" }>;
const found = (decision: Decision): Found => {
  if (decision.kind !== "found") throw new Error(decision.kind);
  return decision;
};
const heard = (id: string, who: Parameters<typeof hearsSurely>[2] = {}, declined: readonly Action[] = []) =>
  play(check, hearsSurely(check, candidateOf(check, id), who), declined);

describe("a verdict", () => {
  it.each(check.candidates.map((c) => c.id))("of a practised ear: %s", (id) => {
    const { decision, hits } = heard(id);
    expect(foundIds(decision)).toContain(id);
    expect(found(decision).ranOut).toBe(false);
    expect(hits.length).toBeLessThanOrEqual(16);
  });

  it.each([
    ["a weaker left ear", { threshold: 4, offset: 6 }],
    ["a weaker right ear", { threshold: 4, offset: -6 }],
    ["a wide middle", { threshold: 8 }],
    ["no word for what cannot be placed", { threshold: 4, admits: false }],
  ])("is as planned for %s, not a fault", (_, who) => {
    const { decision } = heard("planned", who);
    expect(isPlanned(found(decision).found)).toBe(true);
    expect(isPlanned(found(heard("swapped", who).decision).found)).toBe(false);
  });

  it("of an inverted side is found though nobody says “can’t place it”: by folding to mono", () => {
    const { decision, hits } = heard("inverted", { threshold: 4, admits: false });
    expect(foundIds(decision)).toEqual(["inverted"]);
    expect(hits.some((h) => h.action === "mono")).toBe(true);
  });

  it("of a close microphone that is missing under overheads is found by muting them", () => {
    const { decision, hits } = heard("missing hat");
    expect(foundIds(decision)).toEqual(["missing hat"]);
    expect(hits).toContainEqual({ piece: "hat", answer: "nothing", action: "mute-overheads" });
  });

  it("says that nothing is wrong only when everything was asked that could tell", () => {
    const { hits } = heard("planned");
    const muted = hits.filter((h) => h.action === "mute-overheads").map((h) => h.piece);
    for (const drum of ["kick", "snare", "tom1", "tom2"]) expect(muted).toContain(drum);
  });

  it("ends when no hit tells enough any more, and names what is left beside as planned", () => {
    const cell = cellOf(12, "left", "root");
    const planned = candidateOf(cell.check, "planned");
    const { decision, hits } = play(cell.check, hearsSurely(cell.check, planned, { threshold: 4 }));
    expect(hits.length).toBeLessThanOrEqual(12);
    const { found: set, ranOut } = found(decision);
    expect(set.confidence).toBeGreaterThanOrEqual(ENOUGH_PLANNED);
    expect(ranOut).toBe(false);
    expect(set.suspects.map((s) => s.candidate.fault)).toEqual(["planned", "wrong-side", "wrong-side"]);
  });

  it("names together what no hit by itself tells apart, and the actions that would", () => {
    const ids = ["swapped", "flipped", "ears-swapped"];
    for (const id of ids) {
      const { found: set, telling } = found(heard(id).decision);
      for (const { candidate } of set.suspects) expect(ids).toContain(candidate.id);
      if (set.suspects.length > 1) expect(telling).toContain("first-input");
    }
  });

  it("goes without what is declined, and then names what it cannot exclude with the action that tells", () => {
    const { decision, hits } = heard("missing hat", {}, ["mute-overheads"]);
    expect(hits.filter((h) => h.action === "mute-overheads")).toEqual([]);
    expect(foundIds(decision)).toContain("missing hat");
    const planned = heard("planned", {}, ["mute-overheads", "mono"]);
    expect(planned.hits.filter((h) => h.action === "mute-overheads" || h.action === "mono")).toEqual([]);
    expect(isPlanned(found(planned.decision).found)).toBe(true);
    expect(found(planned.decision).telling).toContain("mute-overheads");
  });

  it("comes with a hit that confirms it", () => {
    const { confirmation } = found(heard("missing tom1").decision);
    const swapped = found(heard("swapped").decision).confirmation;
    expect(swapped?.probe.action).toBeNull();
    expect([swapped?.now, swapped?.planned].sort()).toEqual(["left", "right"]);
    // The overheads carry the tom: no hit by itself shows that its microphone is missing.
    expect(confirmation).toBeNull();
  });

  it("survives one wrong word", () => {
    for (const id of ["swapped", "planned", "left-only"])
      for (let wrong = 0; wrong < 4; wrong++) {
        const says = hearsSurely(check, candidateOf(check, id));
        let at = 0;
        const { decision } = play(check, (probe) => (at++ === wrong ? "nothing" : says(probe)));
        expect(foundIds(decision), `${id} ${wrong}`).toContain(id);
      }
  });

  it("is called sure from a chance on, and the next likeliest is named when it is close", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...ANSWERS), { minLength: 60, maxLength: 60 }), (answers) => {
        let at = 0;
        const { decision, hits } = play(check, () => answers[at++] ?? "left");
        expect(hits.length).toBeLessThanOrEqual(mostHits(check));
        if (decision.kind !== "found") return;
        expect(hits.length).toBeGreaterThanOrEqual(LEAST_HITS);
        expect(decision.sure).toBe(decision.found.confidence >= SURE);
        const named = decision.found.suspects.map((s) => s.candidate.id);
        const others = check.candidates.filter((c) => !named.includes(c.id));
        const most = Math.max(
          ...others.map((c) => decision.belief.candidates[check.candidates.indexOf(c)] as number),
        );
        expect(decision.second?.confidence ?? 0).toBe(most >= CLOSE ? most : 0);
      }),
      { numRuns: 30 },
    );
  });

  it("comes with the last hit it asks for, though it is not likely enough", () => {
    const hits = Array.from({ length: mostHits(check) }, (): Hit => ({ piece: "kick", answer: "middle" }));
    expect(decide(check, hits.slice(1)).kind).toBe("asking");
    expect(decide(check, hits)).toMatchObject({ kind: "found", ranOut: true });
  });
});

describe("the next question", () => {
  /** Expected information about the fault by Bayes read backwards: from what each answer does to "planned". */
  const worth = (hits: readonly Hit[], probe: Probe): number => {
    const normal = (of: readonly Hit[]) => {
      const { candidates } = posteriorOf(check, of).belief;
      const all = candidates.reduce((a, b) => a + b, 0);
      return candidates.map((c) => c / all);
    };
    const entropy = (p: readonly number[]) => p.reduce((sum, q) => (q > 0 ? sum - q * Math.log2(q) : sum), 0);
    const place = check.probes.indexOf(probe);
    const joint = hits.length === 0 ? priorJoint(check.overheads) : posteriorOf(check, hits).joints[0];
    const ofPlanned = predicted(joint as Float64Array, check.candidates[0]?.chances[place] ?? []);
    const before = normal(hits);
    return ANSWERS.reduce((sum, answer, at) => {
      const after = normal([...hits, hitOf(probe, answer)]);
      const chance = ((before[0] as number) * (ofPlanned[at] as number)) / (after[0] as number);
      return sum - chance * entropy(after);
    }, entropy(before));
  };

  it("is the hit that is expected to tell most", () => {
    for (const hits of [[], [{ piece: "hat", answer: "right" } as const]]) {
      const { next } = decide(check, hits) as Extract<Decision, { kind: "asking" }>;
      const plain = check.probes.filter((p) => p.action === null);
      const most = plain.reduce((a, b) => (worth(hits, b) > worth(hits, a) ? b : a));
      expect(next).toEqual(most);
    }
  });

  it("is never the same three times in a row, and no action before a few hits", () => {
    const rows = fc.array(fc.constantFrom(...ANSWERS), { minLength: 40, maxLength: 40 });
    fc.assert(
      fc.property(rows, (answers) => {
        let at = 0;
        const { hits } = play(check, () => answers[at++] ?? "left");
        const asked = hits.map((h) => `${h.piece} ${h.action}`);
        asked.forEach((each, n) => {
          expect(n > 1 && each === asked[n - 1] && each === asked[n - 2]).toBe(false);
        });
        for (const hit of hits.slice(0, LEAST_HITS)) expect(hit.action).toBeUndefined();
      }),
      { numRuns: 20 },
    );
  });
});

it("one drum alone is hit twice, and then again with something done for it, as long as there is something to do", () => {
  const kick = checkOf({ ...setup, channels: setup.channels.filter((s) => s.id === "kick") }, drummer);
  const { hits, decision } = play(kick, () => "middle");
  expect(hits.slice(0, 2)).toEqual([
    { piece: "kick", answer: "middle" },
    { piece: "kick", answer: "middle" },
  ]);
  expect(hits[2]?.action).toBeDefined();
  expect(decision.kind).toBe("found");
  expect(play(kick, () => "middle", kick.actions).hits).toHaveLength(2);
});

describe("what fits no fault", () => {
  const always = (answers: { readonly [piece: Id]: Answer }, of: Check = check) =>
    play(of, ({ piece }) => answers[piece] ?? "unclear").decision;

  it.each([
    { kick: "left", snare: "right", hat: "nothing", tom1: "unclear", tom2: "left", floor: "nothing" },
    { kick: "nothing", snare: "left", hat: "nothing", tom1: "unclear", tom2: "nothing", floor: "left" },
  ] as const)("is not given a name %#", (answers) => {
    expect(always(answers).kind).toBe("unexplained");
  });

  it("is not given a name when each hit is called otherwise every time", () => {
    let turn = 0;
    expect(play(check, () => ANSWERS[turn++ % 5] ?? "left").decision.kind).toBe("unexplained");
  });
});

it("progress starts at nothing, stays within 0 and 1, and is whole only with a verdict", () => {
  expect(progressOf(check, [])).toBe(0);
  const { hits } = heard("swapped");
  for (let at = 1; at < hits.length; at++) {
    const progress = progressOf(check, hits.slice(0, at));
    expect(progress).toBeGreaterThanOrEqual(0);
    expect(progress).toBeLessThan(1);
  }
  expect(progressOf(check, hits)).toBe(1);
});

it("where nothing can be told, that is said", () => {
  expect(decide(checkOf(setup, { ...drummer, bus: null }), [])).toEqual({
    kind: "cannot check",
    why: "no-bus",
  });
  const kick: Setup = { ...setup, channels: setup.channels.filter((s) => s.id === "kick") };
  expect(play(checkOf(kick, drummer), () => "middle").decision.kind).toBe("found");
});
