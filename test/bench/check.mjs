/**
 * Checks at the kit, played by two simulated drummers over the templates of the app, three hands and three pan laws, per
 * kind of people and per fault, as Markdown. One drummer follows the engine's own model, the other shares nothing with
 * the engine (test/core/check/stage.ts). The thresholds were tuned on the cells and seeds of the first table only. Fails
 * when a wanted figure is missed. The time of a question has a bench of its own, question.mjs.
 * Usage: node test/bench/check.mjs [sessions a fault] [first seed of what is only measured]
 */
import {
  DRUMMERS,
  figuresOf,
  groups,
  MEASURED_CELLS,
  mean,
  missedBy,
  percent,
  TUNED_CELLS,
} from "./check-figures.mjs";

const TIMES = Number(process.argv[2] ?? 2);
/** Take a new one for a verdict on a change: seeds that were looked at are not untouched any more. */
const SEED = Number(process.argv[3] ?? 310_001);

const row = (cells) => console.log(`| ${cells.join(" | ")} |`);
const fail = (says) => {
  console.log(`MISSED: ${says}`);
  process.exitCode = 1;
};

/** Every kind of people in some cells: one row each, and what came of every session. */
const table = (some, seed) => {
  row([
    "people",
    "cells",
    "checks",
    "fault found",
    "worst cell",
    "worst fault",
    "sure and wrong",
    "hits, with a fault",
    "actions",
    "faults named",
    "nothing wrong: fault named",
    "worst cell",
    "hits, as planned",
  ]);
  row(Array(13).fill("---"));
  return DRUMMERS.map((people) => {
    const figures = figuresOf(people, some, seed, TIMES);
    const { name, all, faulty, planned } = figures;
    const worst = (list, by) =>
      groups(list, by)
        .map(([key, members]) => [key, mean(members, (s) => s.right)])
        .reduce((a, b) => (b[1] < a[1] ? b : a));
    const said = ([key, share]) => `${key} ${percent(share)}`;
    const [plannedCell, plannedRight] = worst(planned, (s) => s.cell);
    row([
      name,
      some.length,
      all.length,
      percent(figures.right),
      said(worst(faulty, (s) => s.cell)),
      said(worst(faulty, (s) => s.fault)),
      percent(figures.sureAndWrong),
      figures.hits.toFixed(2),
      mean(faulty, (s) => s.actions).toFixed(2),
      figures.named.toFixed(2),
      percent(figures.falseAlarm),
      `${plannedCell} ${percent(1 - plannedRight)}`,
      figures.plannedHits.toFixed(2),
    ]);
    return figures;
  });
};

console.log(`Fault found: alone, or named together with what cannot be told from it. ${TIMES} checks a fault and cell,
${10 * TIMES} with nothing wrong.

Tuned on:
`);
table(TUNED_CELLS, 1);
console.log("\nOnly measured:\n");
const measured = table(MEASURED_CELLS, SEED);

console.log("\nFound, per fault, in the cells only measured:\n");
row(["fault", ...measured.map((m) => m.name)]);
row(Array(measured.length + 1).fill("---"));
const byFault = measured.map(({ all }) => new Map(groups(all, (s) => s.fault)));
for (const fault of byFault[0].keys())
  row([fault, ...byFault.map((of) => percent(mean(of.get(fault) ?? [], (s) => s.right)))]);

for (const figures of measured) missedBy(figures).forEach(fail);
