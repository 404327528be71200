/*
 * The slowest setups that the app accepts, for every search that runs on the page's own thread: the recommendation, the
 * ways to free inputs, the allocation, the check, the remedy. Fails where one holds up the page for more than 50 ms.
 * Processor time, the limit drawn out on a machine that is slower just now. What would change a recommendation runs in
 * a worker with progress and a way to stop (screens/image/what-if.tsx) and is only printed.
 * Run: node test/bench/limits.mjs
 */
import { bundle } from "../tools/bundle.mjs";
import { fastest, held, slowness } from "./clock.mjs";

const {
  LIMITS,
  allocate,
  allocationSetup,
  busFigures,
  checkOf,
  checkedSetups,
  decide,
  headroomSetup,
  imageSetup,
  patchFigures,
  patchSetup,
  problemOf,
  reasonsFor,
  recommend,
  waysToFree,
} = await bundle("test/bench/core.ts");

/** Most that the page may be held up, ms. */
const MOST = 50;
const most = MOST * slowness();
const rows = [];
const row = (search, setup, work, rounds) =>
  rows.push({ search, setup, ms: held(`${search}, ${setup}`, fastest(work, rounds), most) });

for (const [channels, listeners] of [
  [128, LIMITS.listeners],
  [LIMITS.channels, 3],
  [LIMITS.channels, 12],
  [LIMITS.channels, LIMITS.listeners],
])
  for (const kind of ["usual", "hard", "FOH free", "a bus each"]) {
    const setup = imageSetup(channels, listeners, kind);
    const [bus] = setup.buses;
    const name = `${channels} channels, ${listeners} listeners, ${kind}`;
    row("recommendation", name, () => recommend(setup, bus));
    const ranked = recommend(setup, bus);
    row("  its steps and reasons", name, () => [
      reasonsFor(setup, bus, ranked),
      ranked.slice(0, 1).map((r) => [r.steps, r.outcomes, r.notes]),
    ]);
  }

for (const inputCount of [8, 64])
  for (const buses of [0, 4, LIMITS.buses])
    for (const alike of [true, false]) {
      const setup = patchSetup(LIMITS.inputs, { inputCount, buses, alike });
      const name = `${LIMITS.inputs} feeds into ${inputCount}, ${buses} buses, ${alike ? "one kind" : "every kind"}`;
      row("ways to free inputs", name, () => waysToFree(setup), 3);
      row("  patch and its issues", name, () => patchFigures(setup), 3);
    }

for (const channels of [64, 128, LIMITS.channels])
  for (const inputs of [16, 64]) {
    const setup = allocationSetup(channels, inputs);
    const problem = problemOf(setup, { channels: new Map(), buses: [] });
    const name = `${channels} channels into ${inputs}`;
    row("allocation", name, () => allocate(problem), 2);
    row("  its question", name, () => problemOf(setup, { channels: new Map(), buses: [] }), 2);
  }

for (const { name, setup, listener, answers } of checkedSetups()) {
  row("check, prepared", name, () => checkOf(setup, listener), 3);
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
      ms: held(`question, ${name}, ${says}`, worst, most),
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
    row(
      "remedy and levels",
      `${channels} channels, peaks ${name}`,
      () => busFigures(setup, setup.buses[0]),
      3,
    );
  }
console.table(rows);
