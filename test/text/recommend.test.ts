import { expect, it } from "vitest";
import type { Bus, Setup } from "../../src/core/model/setup";
import type {
  Note,
  Own,
  PanMove,
  Parts,
  Premise,
  Recommendation,
  Step,
} from "../../src/core/recommend/model";
import type { Drawback, ForFirst, Reasons } from "../../src/core/recommend/reasons";
import { reasonsFor } from "../../src/core/recommend/reasons";
import { recommend } from "../../src/core/recommend/recommend";
import { describeNote, describeParts, describeStep, describeToDo } from "../../src/text/recommend";
import { describeAdvice, describeCost, describePremise, describeWhatIf } from "../../src/text/recommend-why";
import { bus, side } from "../core/inputs/setups";
import { drumsOf, withDrums } from "../core/recommend/drums";
import { heardBy } from "../core/recommend/ranked";
import { channel, kit, listener, withChannel } from "../core/recommend/setups";

/*
 * The wording of every sentence about recommendations, in one file: a better sentence changes that file and no test.
 * Which sentence is said, and with which figures, is held here by the codes that go in.
 */
const lines: string[] = [];
const say = (what: string, ...said: readonly string[]): void => {
  lines.push(`${what}:`, ...said.map((s) => `  ${s}`));
};

const setup = withDrums();
const drums = drumsOf(setup);
const move = (id: string, followed = true): PanMove => ({
  channel: id,
  from: 0.5,
  to: -0.5,
  followed,
  error: 0,
});
const NONE: Parts = { swap: false, fold: false, panning: "keep", mirrored: [], own: [] };
const parts = (over: Partial<Parts>, s: Setup = setup): string =>
  describeParts(s, s.buses[1] as Bus, { ...NONE, ...over });
const flip = (who: string): Own => ({ listener: who, does: "flip" });
const own = (who: string, swap = false): Own => ({ listener: who, does: "own bus", swap, mirrored: [] });

const OWN_BUS: Step = {
  step: "own bus",
  listener: "ines",
  of: "Drums",
  copy: bus("m9", [], { name: "Drums for Ines" }),
  inputs: [3, 4],
  trims: [0, 0],
  off: [false, false],
  pans: [],
};
const STEPS: readonly Step[] = [
  { step: "swap", bus: "Drums", inputs: [1, 0] },
  { step: "swap", bus: "Drums", inputs: null },
  { step: "fold", bus: "Drums" },
  { step: "pan", bus: "Drums", ...move("Hat") },
  { step: "pan", bus: "Drums", ...move("Hat", false) },
  { step: "channel pan", ...move("Hat", false) },
  { step: "flip", listener: "ines", flipped: true },
  { step: "flip", listener: "ines", flipped: false },
  OWN_BUS,
  { ...OWN_BUS, pans: [move("Hat"), move("Ride", false)] },
];

const NOTES: readonly Note[] = [
  { code: "sides lost", channels: ["Hat"], listeners: ["mara"] },
  { code: "sides lost", channels: ["Hat", "Ride"], listeners: ["mara", "ines"] },
  { code: "foh", channels: ["Hat"] },
  { code: "foh", channels: ["Hat", "Ride"] },
  { code: "folded" },
  { code: "side trims", by: "bus", apart: 2, residual: 0 },
  { code: "side trims", by: "pans", apart: 0.05, residual: 0.05 },
  { code: "input trims", apart: 1, residual: 1 },
  { code: "rounding", channel: "Hat", error: 1.58 },
  { code: "polarity", by: "bus" },
  { code: "polarity", by: "pans" },
  { code: "uneven sides", by: "bus" },
  { code: "uneven sides", by: "pans" },
  { code: "balance", channels: ["Hat", "Ride"] },
];

const PREMISES: readonly Premise[] = [
  { if: "turned", listener: "mara" },
  { if: "first", listener: "mara" },
  { if: "without", channels: ["Hat"] },
  { if: "without", channels: ["Hat", "Ride", "Hat", "Ride"] },
  { if: "FOH may change" },
  { if: "FOH must not change" },
  { if: "inputs", more: 1 },
  { if: "inputs", more: 2 },
  { if: "inputs", more: -1 },
  { if: "free inputs may be used" },
  { if: "free inputs must not be used" },
];

const recommendation = (over: Partial<Recommendation> = {}): Recommendation => ({
  id: "swap",
  parts: { ...NONE, swap: true },
  criteria: { first: [0, 0, 0], others: [0, 0, 0], inputs: 0, moves: 1, residual: 0 },
  outcomes: [],
  steps: [],
  foh: [],
  notes: [],
  ...over,
});
const LEAVE = recommendation({ id: "leave", parts: NONE });
const REASONS: Reasons = {
  nothing: null,
  off: [],
  first: null,
  others: { wrong: [0, 0], flat: [0, 0] },
  against: null,
};
const why = (over: Partial<Reasons>, ranked: readonly Recommendation[] = [LEAVE]): string =>
  describeAdvice(setup, drums, ranked, { ...REASONS, ...over }).why;
const first = (over: Partial<ForFirst>): string =>
  why({
    first: { listener: "mara", decides: "decides", wrong: [0, 0], flat: [0, 0], ...over },
  });

it("says everything there is to say as the file has it", async () => {
  say("one line", parts({}), parts({ swap: true }), parts({ fold: true }));
  say(
    "one line, pans",
    parts({ panning: "bus", mirrored: ["Hat"] }),
    parts({ swap: true, panning: "bus", mirrored: ["Hat", "Ride"] }),
    parts({ panning: "bus", mirrored: ["Hat", "Ride", "Hat", "Ride"] }),
    parts({ panning: "foh", mirrored: ["Hat"] }),
    parts({ panning: "foh", mirrored: ["Hat", "Ride", "Hat", "Ride"] }),
  );
  say(
    "one line, for listeners alone",
    parts({ own: [flip("ines")] }),
    parts({ swap: true, own: [flip("ines"), flip("theo")] }),
    parts({ own: [own("ines")] }),
    parts({ own: [own("ines"), own("theo")] }),
    parts({ own: [own("ines", true)] }),
    parts({ own: [own("ines", true), own("theo", true), flip("mara")] }),
  );
  const swapped = {
    ...setup,
    monitor: { ...setup.monitor, inputs: [side("Drums", "right"), side("Drums", "left")] },
  };
  say("one line, swapped now", parts({ swap: true }, swapped));
  say("steps", ...STEPS.map((step) => describeStep(setup, step)));
  say(
    "to do",
    describeToDo(setup, []),
    describeToDo(setup, STEPS.slice(0, 1)),
    describeToDo(setup, STEPS.slice(0, 3)),
  );
  say("notes", ...NOTES.map((note) => describeNote(setup, drums, note)));
  say("premises", ...PREMISES.map((premise) => describePremise(setup, drums, premise)));
  say(
    "nothing to do",
    ...(["no channel", "nobody", "folded", "mono"] as const).map((nothing) => {
      const { headline, why: because } = describeAdvice(setup, drums, [LEAVE], { ...REASONS, nothing });
      return `${headline}. ${because}`;
    }),
  );
  say(
    "for the first",
    first({ decides: "side-on" }),
    first({ decides: "hears nothing" }),
    first({ wrong: [4, 0] }),
    first({ wrong: [1, 0], flat: [0, 1] }),
    first({ wrong: [4, 1] }),
    first({ wrong: [2, 2] }),
    first({ flat: [3, 1] }),
    first({ flat: [3, 3] }),
    first({}),
  );
  const others = (wrong: [number, number], flat = 0): string => why({ others: { wrong, flat: [0, flat] } });
  say(
    "for the others",
    others([3, 0]),
    others([1, 0], 1),
    others([2, 2]),
    others([3, 1]),
    `“${others([0, 0])}”`,
  );
  const cost = (moves: number, inputs: number, foh: readonly string[]): string =>
    describeCost(recommendation({ foh, criteria: { ...LEAVE.criteria, moves, inputs } }));
  say("cost", cost(0, 0, []), cost(1, 2, []), cost(4, 0, ["Hat"]), cost(4, 0, ["Hat", "Ride"]));
  const DRAWBACKS: readonly Drawback[] = [
    { by: "wrong", for: "first", more: 1 },
    { by: "flat", for: "others", more: 2 },
    { by: "score", for: "first", more: 2 },
    { by: "inputs", more: 2 },
    { by: "moves", more: 1 },
    { by: "residual", more: 1.5 },
  ];
  say("second best", ...DRAWBACKS.map((against) => why({ against }, [LEAVE, recommendation()])));
  say(
    "off",
    why({ off: [{ side: "left", input: 3 }] }),
    why({
      off: [
        { side: "left", input: 3 },
        { side: "right", input: 1 },
      ],
    }),
  );

  const keys = channel("keys", { name: "Keys", lines: 2, keepSides: true });
  const whole = heardBy(withChannel(kit(), keys), listener("ines", { name: "Ines", facing: 180 }));
  const bus = whole.buses[0] as Bus;
  const found = recommend(whole, bus);
  const advice = describeAdvice(whole, bus, found, reasonsFor(whole, bus, found));
  say("a whole one", advice.headline, advice.why);
  await expect(`${lines.join("\n")}\n`).toMatchFileSnapshot("./recommend.snapshot.txt");
});

it("says nothing that the trade does not", () => {
  const not = /repair|\bleg\b|legs\b|slot|source|\bsum\b|\bpair\b|reverse|house|put it|flat\b|feed/i;
  expect(lines.length).toBeGreaterThan(60);
  expect(lines.filter((line) => line.startsWith("  ") && not.test(line))).toEqual([]);
});

it("does not let a name that turns the direction of writing turn the words behind it", () => {
  const turned = describeStep(setup, { ...OWN_BUS, copy: { ...OWN_BUS.copy, name: "\u202Eabc" } });
  expect(turned).toContain("“\u202Eabc\u202C”");
  expect(describeWhatIf(setup, drums, { premise: PREMISES[0] as Premise, id: "leave", parts: NONE })).toEqual(
    {
      fact: describePremise(setup, drums, PREMISES[0] as Premise),
      instead: parts({}),
    },
  );
});
