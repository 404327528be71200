import { describe, expect, it } from "vitest";
import { compareCharges, type LossCode } from "../../../src/core/allocate/losses";
import type { AllocationProblem, BusPin, Pin, Width } from "../../../src/core/allocate/model";
import { type AllocationPlan, bestPlan } from "../../../src/core/allocate/plans";
import { problemOf } from "../../../src/core/allocate/problem";
import { type AllocationKind, KIND_RULES } from "../../../src/core/allocate/rules";
import { exampleSetup } from "../../../src/document/example";
import { BRUTE_CODES, leastLost } from "./brute";
import { LINE_UPS } from "./lineups";

/** A plan made by hand: what is alone on how many inputs, the width of each bus; all else shares with its family. */
interface ByHand {
  readonly own: { readonly [name: string]: Width };
  readonly buses: { readonly [bus: string]: Width };
  /** Channels of other families in the fold-back. */
  readonly foldBack?: readonly string[];
  /** Inputs that it takes. */
  readonly takes: number;
}

const pinned = (problem: AllocationProblem, { own, buses, foldBack = [] }: ByHand): AllocationProblem => ({
  ...problem,
  channels: problem.channels.map((c) => {
    const width = own[c.id];
    const isFolded = foldBack.includes(c.id) || KIND_RULES[c.kind].family === "fold-back";
    const pin: Pin = width ? { as: "own", width, input: null } : { as: isFolded ? "fold-back" : "shared" };
    return { ...c, pin };
  }),
  busPins: Object.entries(buses).map(([bus, width]): BusPin => ({ bus, width, input: null })),
});

const one = (...names: string[]): { [name: string]: Width } =>
  Object.fromEntries(names.map((name) => [name, 1]));
const two = (...names: string[]): { [name: string]: Width } =>
  Object.fromEntries(names.map((name) => [name, 2]));
const numbered = (name: string, count: number): string[] =>
  Array.from({ length: count }, (_, i) => `${name} ${i + 1}`);

const TRIO = { ...one("Kick", "Snare", "Bass", "Guitar", "Vox", "Click", "Talk"), ...two("Tracks") };

/** The plans that a practitioner would make of the first ten line-ups. Common practice, no source. */
const BY_HAND: { readonly [name: string]: ByHand } = {
  "trio with tracks": { own: TRIO, buses: { drums: 2 }, takes: 11 },
  "soul band of ten": {
    own: { ...one("Bass", "Guitar", "Lead", "BV 1", "BV 2", "Talk"), ...two("Keys", "Playback") },
    buses: { drums: 2, horns: 1, "fold-back": 1 },
    takes: 14,
  },
  "two keyboard players, four singers, click and tracks": {
    own: {
      ...one("Bass", "Keys 2", "Lead", "Vox 2", "Vox 3", "Vox 4", "Tracks", "Click"),
      ...two("Keys 1"),
    },
    buses: { drums: 2, guitars: 2, "fold-back": 1 },
    takes: 15,
  },
  "acoustic quintet without kit": {
    own: {
      ...one("Cajon", "Double bass", "Guitar", "Mandolin", "Fiddle", "Ann vox", "Bob vox", "Cat vox"),
      ...two("Piano"),
    },
    buses: {},
    takes: 10,
  },
  "musical with eight headsets and a pit of nine": {
    own: one("Bass", "Guitar", "Click", "MD mic"),
    buses: {
      ...{ drums: 2, keys: 2, horns: 2, strings: 2 },
      ...{ "vocals/Principals": 1, "vocals/Ensemble": 1 },
    },
    takes: 14,
  },
  "big band of seventeen": {
    own: one("Bass", "Guitar", "Soloist", "Singer"),
    buses: {
      ...{ drums: 2, "keys//Piano": 1 },
      ...{ "horns/Trumpets": 1, "horns/Trombones": 1, "horns/Saxes": 1 },
    },
    takes: 10,
  },
  "speech event with house band": {
    own: { ...TRIO, ...one("Presenter") },
    buses: { drums: 2, "fold-back": 1 },
    takes: 13,
  },
  "two drummers": {
    own: { ...one("Bass", "Lead", "Click"), ...two("Keys") },
    buses: {
      ...{ "drums/Kit A": 2, "drums/Kit B": 2, "drums/percussion": 1 },
      ...{ guitars: 1, horns: 1, vocals: 1, "fold-back": 1 },
    },
    takes: 14,
  },
  "the same band on an 8-input system": {
    own: one("Bass", "Lead", "Click"),
    buses: { drums: 1, guitars: 1, keys: 1, vocals: 1, "fold-back": 1 },
    foldBack: ["Tracks"],
    takes: 8,
  },
  "forty channels on a 40-input system": {
    own: {
      ...one("Kick", "Snare", "Lead", "Click", "Talk"),
      ...one(...numbered("Perc", 3), ...numbered("Bass", 2), ...numbered("Guitar", 4)),
      ...one(...numbered("Horn", 4), ...numbered("Violin", 2), ...numbered("BV", 5)),
      ...two(...numbered("Keys", 3), ...numbered("Tracks", 2)),
    },
    buses: { drums: 2, "fold-back": 1 },
    takes: 38,
  },
};

const best = (problem: AllocationProblem): AllocationPlan => {
  const plan = bestPlan(problem);
  if (!plan) throw new Error("what is pinned is impossible");
  return plan;
};

const lineUp = (name: string): AllocationProblem => {
  const found = LINE_UPS[name];
  if (!found) throw new Error(`no line-up is called ${name}`);
  return found;
};

describe("a plan made by hand", () => {
  it("is there for the first ten line-ups", () => {
    expect(Object.keys(BY_HAND)).toEqual(Object.keys(LINE_UPS).slice(0, 10));
  });

  it.each(Object.entries(BY_HAND))("is never better than the first plan: %s", (name, hand) => {
    const problem = lineUp(name);
    const byHand = best(pinned(problem, hand));
    expect(byHand.feeds.flatMap((f) => f.inputs)).toHaveLength(hand.takes);
    expect(byHand.leftOut).toEqual([]);
    expect(compareCharges(best(problem).charges, byHand.charges)).toBeLessThanOrEqual(0);
  });

  // The table would rather have both modellers apart than a stereo keyboard: that is for the user to say.
  it("comes out of the third line-up once no guitar asks for an input of its own; the spare input is the second keyboard’s", () => {
    const problem = lineUp("two keyboard players, four singers, click and tracks");
    const asked = {
      ...problem,
      channels: problem.channels.map((c) =>
        c.kind === "guitar" ? { ...c, rule: { own: "no-matter" as const } } : c,
      ),
    };
    const feeds = best(asked).feeds.map((f) => `${f.width} ${f.bus?.id ?? f.channels[0]}`);
    expect(feeds.sort()).toEqual([
      ...["1 Bass", "1 Click", "1 Lead", "1 Tracks", "1 Vox 2", "1 Vox 3", "1 Vox 4", "1 fold-back"],
      ...["2 Keys 1", "2 Keys 2", "2 drums", "2 guitars"],
    ]);
  });
});

describe("the worked example as it is patched by hand", () => {
  const setup = exampleSetup();
  const problem = problemOf(setup, { channels: new Map(), buses: [] });
  const named = (name: string): string => problem.channels.find((c) => c.name === name)?.id ?? "";
  const ids = (own: { [name: string]: Width }) =>
    Object.fromEntries(Object.entries(own).map(([name, width]) => [named(name), width]));
  const hand = pinned(problem, {
    own: ids({
      ...one("Bass", "Guitar", "Trumpet", "Saxophone", "Lead vox", "BV 1", "BV 2", "Talk"),
      ...two("Keys", "Playback"),
    }),
    buses: { drums: 2, "fold-back": 1 },
    takes: 15,
  });

  it("is what was pinned", () => {
    const plan = best(hand);
    expect(plan.changes).toEqual([]);
    expect([plan.moved, plan.inputsLeft]).toEqual([0, [16]]);
  });

  it("loses as much as is counted without the engine, and never less than the first plan", () => {
    const counted = leastLost(hand) as number[];
    const charges = Object.fromEntries(BRUTE_CODES.map((code, i) => [code, counted[i]])) as {
      [code in LossCode]: number;
    };
    expect(compareCharges(best(hand).charges, charges)).toBe(0);
    expect(compareCharges(best(problem).charges, charges)).toBeLessThan(0);
    const kinds: AllocationKind[] = ["kick", "snare"];
    expect(problem.channels.filter((c) => kinds.includes(c.kind))).toHaveLength(2);
  });
});
