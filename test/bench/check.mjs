/**
 * Checks at the kit, reckoned over every fault of every template of the app, three hands and three pan laws, and of kits
 * that are no template: how often the verdict is right and how many hits it takes, as Markdown; then the time of a
 * question. Fails when a cell misses what it must hold.
 * Usage: node test/bench/check.mjs
 */
import { performance } from "node:perf_hooks";
import { bundle } from "../tools/bundle.mjs";

const {
  asAsked,
  checkOf,
  crowd,
  drummer,
  frontToBack,
  hears,
  hearsSurely,
  judge,
  pannedByChance,
  play,
  reckon,
  seeded,
  shuffled,
  simulate,
  smallKits,
  strictBoundOf,
  TUNED,
  templateCells,
  UNTUNED,
  yardstickOf,
} = await bundle("test/core/check/bench.ts");

const SLIP = 0.05;
const RIGHT = 0.97;
const OVER = 1.5;
const QUESTION_MS = 5;

const percent = (share, digits = 1) => `${(100 * share).toFixed(digits)} %`;
const row = (cells) => console.log(`| ${cells.join(" | ")} |`);
const mean = (values) => values.reduce((a, b) => a + b, 0) / values.length;
const fail = (says) => {
  console.log(`MISSED: ${says}`);
  process.exitCode = 1;
};

/** Other orders are played by chance, so many sessions a fault. */
const TIMES = 6;
let seed = 0;
const figures = ({ law, kit, check }) => {
  seed += 1;
  const slips = reckon(check, SLIP, seeded(seed));
  const random = seeded(seed);
  const played = (order) => simulate(check, (fault) => hears(check, fault, SLIP, random), TIMES, order).hits;
  const yardstick = yardstickOf(check);
  return {
    name: `${law}, ${kit}`,
    sets: check.sets.length,
    ...slips,
    sure: simulate(
      check,
      (fault) => hearsSurely(check, fault),
      1,
      () => asAsked,
    ),
    clean: reckon(check, 0, seeded(seed), 1e-6).right,
    yardstick,
    strict: strictBoundOf(check, SLIP),
    over: slips.hits / yardstick,
    overByWeight: slips.weighted / yardstick,
    random: played(() => shuffled(random)),
    front: played(() => frontToBack),
  };
};
const least = (cells, what) => cells.reduce((a, b) => (b[what] < a[what] ? b : a));
const most = (cells, what) => cells.reduce((a, b) => (b[what] > a[what] ? b : a));

/** One row for some cells: the mean, and the worst where it matters. */
const sumUp = (name, cells) => {
  const of = (what, digits = 2) => mean(cells.map((c) => c[what])).toFixed(digits);
  const [low, high] = [least(cells, "sets").sets, most(cells, "sets").sets];
  row([
    name,
    cells.length,
    low === high ? low : `${low}–${high}`,
    `${percent(mean(cells.map((c) => c.right)))} (worst ${percent(least(cells, "right").right)})`,
    percent(mean(cells.map((c) => c.sure.right / c.sure.sessions))),
    `${percent(mean(cells.map((c) => c.clean)), 3)} (worst ${percent(least(cells, "clean").clean, 3)})`,
    `${of("hits")}, by weight ${of("weighted")}`,
    of("yardstick"),
    `${most(cells, "over").over.toFixed(2)} ×, by weight ${most(cells, "overByWeight").overByWeight.toFixed(2)} ×`,
    of("strict"),
    of("random"),
    of("front"),
  ]);
};

/** What every one of these cells must hold. */
const mustHold = (cells) => {
  for (const { name, right, sure, over, overByWeight } of cells) {
    if (right < RIGHT) fail(`${name}: right ${percent(right)}, wanted ${percent(RIGHT)}`);
    if (sure.right < sure.sessions)
      fail(`${name}: without slips or chance ${sure.right} of ${sure.sessions} right`);
    if (Math.max(over, overByWeight) > OVER)
      fail(
        `${name}: hits ${over.toFixed(2)} ×, by weight ${overByWeight.toFixed(2)} × the yardstick, allowed ${OVER} ×`,
      );
  }
};

console.log(
  `Right: the right fault, or the right set of those that no answer can tell apart; every fault as often as every other.
No slips, sure: every piece is called what most call it, no chance. No slips, graded: what lies between two places is
called now this, now that. Yardstick: entropy before the first hit over the largest expected information of the first
answer, by the engine's weights. Strict: below it no way of asking can come that ends as sure.
`,
);
row([
  "what",
  "cells",
  "sets",
  `right, ${percent(SLIP, 0)} slips`,
  "right, no slips, sure",
  "right, no slips, graded",
  "hits",
  "yardstick",
  "hits over yardstick, worst",
  "strict",
  "random order",
  "front to back",
]);
row(Array(12).fill("---"));

const templates = templateCells(TUNED).map(figures);
for (const law of TUNED)
  for (const mics of [...new Set(templates.map((c) => c.name.match(/(\d+) mics/)?.[1]))])
    sumUp(
      `${law}, ${mics} mics`,
      templates.filter((c) => c.name.startsWith(`${law}, ${mics} mics`)),
    );
sumUp("**all templates**", templates);
const small = smallKits(TUNED).map(figures);
for (const kit of ["no floor tom, 3 mics", "no floor tom, 10 mics", "four pieces"])
  sumUp(
    kit,
    small.filter((c) => c.name.endsWith(kit)),
  );
mustHold([...templates, ...small]);

// Nothing was tuned on these: they must hold it on average, and the worst is printed.
const others = [
  ["three other laws", [...templateCells(UNTUNED), ...smallKits(UNTUNED)].map(figures)],
  [
    "pans by chance, all six laws",
    [...TUNED, ...UNTUNED].flatMap((law, at) => pannedByChance(law, seeded(100 + at))).map(figures),
  ],
];
for (const [name, cells] of others) {
  sumUp(name, cells);
  const right = mean(cells.map((c) => c.right));
  const over = mean(cells.map((c) => c.overByWeight));
  if (right < RIGHT) fail(`${name}: right ${percent(right)} on average`);
  if (over > OVER) fail(`${name}: hits by weight ${over.toFixed(2)} × the yardstick on average`);
}
const all = [...templates, ...small, ...others.flatMap(([, cells]) => cells)];
console.log(
  `\nA known fault is called unknown in at most ${percent(most(all, "unknown").unknown, 2)} of a cell, a check ends unsure in at most ${percent(most(all, "unsure").unsure, 2)}.`,
);
const worst = least(templates, "least");
console.log(`The fault found worst: ${percent(worst.least)} right (${worst.name}).`);

// The time of a question: a long check of many sources whose answers fit nothing.
const answers = ["left", "middle", "right", "nothing", "unclear"];
const random = seeded(64);
const setup = crowd(64);
const check = checkOf(setup, drummer);
const { hits } = play(check, (piece) => answers[Number(piece.split(" ")[1]) % 3] ?? "left", asAsked);
const long = Array.from({ length: 40 }, () => ({
  piece: check.strikes[Math.floor(random() * check.strikes.length)].piece,
  answer: answers[Math.floor(random() * 5)],
}));
const say = (name, work, limit = Number.POSITIVE_INFINITY) => {
  const taken = Array.from({ length: 101 }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  }).sort((a, b) => a - b);
  console.log(`${name}: median ${taken[50].toFixed(2)} ms, slowest ${taken[100].toFixed(2)} ms`);
  if (taken[50] > limit) fail(`${name}: median ${taken[50].toFixed(2)} ms, allowed ${limit} ms`);
};
console.log(`\n64 sources, ${check.sets.length} sets:`);
say("prepare the check, once", () => checkOf(setup, drummer));
say("first question", () => judge(check, []), QUESTION_MS);
say(`question after ${hits.length - 1} hits`, () => judge(check, hits.slice(0, -1)), QUESTION_MS);
say("question after 40 hits that fit nothing", () => judge(check, long), QUESTION_MS);
