/** What the benches of the check at the kit share: cells, people, what is wanted, and what came of many checks. */
import { bundle } from "../tools/bundle.mjs";

const { cellOf, onStage, ownModel, PEOPLE_KINDS, seeded, sessions } =
  await bundle("test/core/check/bench.ts");

/** What is wanted of every kind of people. */
export const WANTED = {
  right: { ordinary: 0.97, "weak ear": 0.93, "loud overheads": 0.93, "never “can’t place”": 0.93, own: 0.93 },
  falseAlarm: 0.03,
  sureAndWrong: 0.02,
  hits: 6,
  plannedHits: 10,
  named: 3,
};

/** A share as percent. */
export const percent = (share, digits = 1) => `${(100 * share).toFixed(digits)} %`;

/** The mean of something over a list; true counts as 1. */
export const mean = (list, of) => list.reduce((sum, item) => sum + Number(of(item)), 0) / list.length;

/** Lists of what has the same key. */
export const groups = (list, by) => {
  const made = new Map();
  for (const item of list) made.set(by(item), [...(made.get(by(item)) ?? []), item]);
  return [...made];
};

const LAWS = ["sine", "root", "linear"];
const HANDS = ["right", "left", "open"];
const COUNTS = [3, 4, 8, 10, 12];
const isTuned = ({ name }) => /^(3|4|8) mics, right, sine|^(10|12) mics, left, root/.test(name);
const cells = LAWS.flatMap((law) => HANDS.flatMap((hand) => COUNTS.map((count) => cellOf(count, hand, law))));
/** Thresholds were tuned on these only. */
export const TUNED_CELLS = cells.filter(isTuned);
/** Nothing was tuned on these. */
export const MEASURED_CELLS = cells.filter((cell) => !isTuned(cell));

/** Who answers. */
export const DRUMMERS = [
  ["own", "own model", ownModel],
  ...PEOPLE_KINDS.map((kind) => [kind.name, `stage, ${kind.name}`, onStage(kind)]),
];

/** What came of the checks of one kind of people: every fault of every cell so many times, “nothing wrong” ten times as often. */
export const figuresOf = ([kind, name, drummers], some, seed, times) => {
  const all = some.flatMap((cell, at) =>
    sessions(cell, drummers, times, 10 * times, seeded(seed + 100 * at)),
  );
  const faulty = all.filter((s) => s.fault !== "planned");
  const planned = all.filter((s) => s.fault === "planned");
  return {
    kind,
    name,
    all,
    faulty,
    planned,
    right: mean(faulty, (s) => s.right),
    sureAndWrong: mean(all, (s) => s.sureAndWrong),
    hits: mean(faulty, (s) => s.hits),
    named: mean(all, (s) => s.named),
    falseAlarm: 1 - mean(planned, (s) => s.right),
    plannedHits: mean(planned, (s) => s.hits),
  };
};

/** What is wanted and was missed, in words. */
export const missedBy = ({ kind, name, right, sureAndWrong, hits, named, falseAlarm, plannedHits }) =>
  [
    [right < WANTED.right[kind], `fault found ${percent(right)}`],
    [sureAndWrong > WANTED.sureAndWrong, `sure and wrong ${percent(sureAndWrong)}`],
    [falseAlarm > WANTED.falseAlarm, `nothing wrong, but a fault named ${percent(falseAlarm)}`],
    [named > WANTED.named, `${named.toFixed(2)} faults named`],
    [hits > WANTED.hits, `${hits.toFixed(2)} hits with a fault`],
    [plannedHits > WANTED.plannedHits, `${plannedHits.toFixed(2)} hits as planned`],
  ].flatMap(([isMissed, says]) => (isMissed ? [`${name}: ${says}`] : []));
