/*
 * The slowest setups that the app accepts, for every search. What the page does at once (`core/at-once.ts`) fails where
 * it takes more than 50 ms; what is run off the page's thread, with progress and a button that stops it
 * (`screens/long-search.tsx`), is printed. Processor time, the fastest of some rounds.
 * Run: node test/bench/limits.mjs
 */
import { bundle } from "../tools/bundle.mjs";
import { fastest, held } from "./clock.mjs";

const {
  LIMITS,
  allocate,
  allocationSetup,
  arePlansShort,
  busFigures,
  checkOf,
  checkedSetup,
  decide,
  deskList,
  evaluate,
  exampleSetup,
  filled,
  findRecommendations,
  freeingQuestion,
  headroomSetup,
  fohPanIssues,
  imageSetup,
  imagesOf,
  isCheckShort,
  isRecommendationShort,
  overheadIssues,
  patchFigures,
  patchSetup,
  problemOf,
  reasonsFor,
  recommend,
  recommendationsOf,
  waysToFree,
  whatIf,
} = await bundle("test/bench/core.ts");

/** Most that the page may be held up, ms. */
const MOST = 50;
/** Most that a figure may take that is worked out at every edit, ms. */
const MOST_EDIT = 100;
const rows = [];
/**
 * @param {string} search
 * @param {string} setup
 * @param {() => unknown} work
 * @param {boolean} atOnce whether the page's own thread does it
 */
const row = (search, setup, work, atOnce = true, rounds = 3, most = MOST) => {
  const ms = fastest(work, rounds);
  rows.push({
    search,
    setup,
    where: atOnce ? "at once" : "worker",
    ms: atOnce ? held(`${search}, ${setup}`, ms, most) : ms.toFixed(0),
  });
};

/** Looks at what a screen shows of a bus at once: what nobody looks at is not worked out. */
const look = ({ remedy, hardFill, loss, sides }) => [
  remedy,
  hardFill,
  loss,
  sides.map((side) => [side.contributions, side.costliest, side.playable, side.correlated]),
];

const NO_PINS = { channels: new Map(), buses: [] };

for (const [channels, listeners] of [
  [16, LIMITS.listeners],
  [32, 16],
  [64, 8],
  [170, 3],
  [128, LIMITS.listeners],
  [LIMITS.channels, 3],
  [LIMITS.channels, LIMITS.listeners],
])
  for (const kind of ["usual", "hard", "FOH free", "a bus each"]) {
    const setup = imageSetup(channels, listeners, kind);
    const [bus] = setup.buses;
    const name = `${channels} channels, ${listeners} listeners, ${kind}`;
    const atOnce = isRecommendationShort(setup, bus);
    if (atOnce)
      row(
        "recommendation and its reasons",
        name,
        () => reasonsFor(setup, bus, recommend(setup, bus)),
        true,
        5,
      );
    else {
      row("recommendation and its reasons", name, () => findRecommendations(setup, bus), false, 1);
      const found = findRecommendations(setup, bus);
      row("  taken in", name, () => recommendationsOf(setup, bus, structuredClone(found)));
    }
  }

for (const [feeds, inputCount] of [
  [24, 8],
  [48, 8],
  [48, 40],
  [LIMITS.inputs, 8],
  [LIMITS.inputs, 64],
])
  for (const buses of [0, 4, Math.min(LIMITS.buses, feeds / 2 - 8)])
    for (const alike of [true, false]) {
      const setup = patchSetup(feeds, { inputCount, buses, alike });
      const name = `${feeds} feeds into ${inputCount}, ${buses} buses, ${alike ? "one kind" : "every kind"}`;
      const isShort = arePlansShort({ channels: setup.channels, inputs: setup.monitor.inputCount });
      row("  the question of the ways", name, () => freeingQuestion(setup, NO_PINS), isShort);
      const question = freeingQuestion(setup, NO_PINS);
      row("ways to free inputs", name, () => waysToFree(question), isShort);
      row("  patch and its issues", name, () => patchFigures(setup), true, 3, MOST_EDIT);
    }

for (const [channels, inputs] of [
  [12, 64],
  [24, 32],
  [48, 16],
  [48, 8],
  [96, 8],
  [64, 64],
  [LIMITS.channels, 16],
  [LIMITS.channels, 64],
]) {
  const setup = allocationSetup(channels, inputs);
  const problem = problemOf(setup, NO_PINS);
  const name = `${channels} channels into ${inputs}`;
  const atOnce = arePlansShort(problem);
  const rounds = atOnce ? 5 : 1;
  row("  the question of the plans", name, () => problemOf(setup, NO_PINS));
  row("plans", name, () => allocate(problem), atOnce, rounds);
  const [plan] = allocate(problem).plans;
  if (plan) row("  what would change them", name, () => whatIf(problem, plan), atOnce, rounds);
}

for (const [channels, pieces, overheads] of [
  [32, 32, 4],
  [64, 16, 8],
  [128, 8, 2],
  [64, 64, 8],
  [LIMITS.channels, LIMITS.pieces, 0],
  [LIMITS.channels, LIMITS.pieces, 8],
]) {
  const { setup, listener, answers } = checkedSetup(channels, pieces, overheads);
  const name = `${channels} channels, ${pieces} pieces, ${overheads} overheads`;
  const atOnce = isCheckShort(setup, listener);
  row("check, prepared", name, () => checkOf(setup, listener), atOnce, atOnce ? 5 : 1);
  const check = checkOf(setup, listener);
  if (check.obstacle) throw new Error(check.obstacle);
  for (const [says, answer] of Object.entries(answers)) {
    const hits = [];
    let worst = 0;
    for (;;) {
      const decision = decide(check, hits);
      if (hits.length % 4 === 0)
        worst = Math.max(
          worst,
          fastest(() => decide(check, hits), 3),
        );
      if (decision.kind !== "asking") break;
      const { piece, action } = decision.next;
      hits.push({ piece, answer: answer(piece, hits.length), ...(action ? { action } : {}) });
    }
    rows.push({
      search: "  slowest question",
      setup: `${name}, ${says} answers, ${hits.length} hits`,
      where: "at once",
      ms: held(`question, ${name}, ${says}`, worst, MOST),
    });
  }
}

for (const channels of [128, LIMITS.channels])
  for (const [name, peak] of [
    ["all alike", () => -6],
    ["nearly alike", (chance) => -6 - chance],
    ["by chance", (chance) => -6 - 20 * chance],
  ]) {
    const setup = headroomSetup(channels, peak);
    row("remedy and levels", `${channels} channels, peaks ${name}`, () =>
      look(busFigures(setup, setup.buses[0])),
    );
  }
// What the screens work out at every edit, of every bus and every listener, where everything is at its limit.
const full = filled(exampleSetup());
const audience = full.listeners.find(({ kind }) => kind === "audience");
for (const [search, work] of [
  [
    "headroom of every bus",
    () => {
      const { buses } = evaluate(full);
      return full.buses.map(({ id }) => buses.get(id)?.lowest);
    },
  ],
  ["images of all", () => imagesOf(full)],
  ["overheads", () => overheadIssues(full)],
  ["pans at FOH", () => fohPanIssues(full, imagesOf(full, [audience]))],
  ["patch and its issues", () => patchFigures(full)],
  ["the question of the plans", () => problemOf(full, NO_PINS)],
  ["desk list", () => deskList(full)],
])
  row(search, "everything at its limit", work, true, 5, MOST_EDIT);
console.table(rows);
