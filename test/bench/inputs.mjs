/*
 * The reading of input lists of the largest size allowed, by what is in them: milliseconds, fastest of several.
 * Run: node test/bench/inputs.mjs
 */
import { bundle } from "../tools/bundle.mjs";

const { exampleSetup } = await bundle("test/bench/core.ts");
const { CSV_LIMITS, openCsv } = await bundle("src/shelf/csv.ts");
const { readList } = await bundle("src/shelf/csv-list.ts");

const ROUNDS = 8;
const LISTS = [
  "a\n",
  "\n",
  ",",
  '"',
  '"a"b',
  "a,",
  '"a""',
  "\0a",
  "é",
  "''",
  "ab,cd\n",
  ";,|\t",
  "Kick,L30\n",
];

const fastest = async (work) => {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round += 1) {
    const start = performance.now();
    await work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
};

const example = exampleSetup();
const lists = [];
for (const piece of LISTS) {
  const blob = new Blob([piece.repeat(Math.floor(CSV_LIMITS.bytes / piece.length))]);
  const ms = await fastest(async () => {
    const opened = await openCsv(blob);
    if (opened.ok) readList(opened.table, opened.table.mapping, opened.table.header, example);
  });
  lists.push({ "1 MB of": JSON.stringify(piece), ms: ms.toFixed(1) });
}
console.table(lists);
