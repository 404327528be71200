/*
 * A whole measurement (correlation, true peak, F and S, the pair) of 3 min × 8 tracks, 48 kHz, 24 bits, in Node and in
 * the browser's worker, beside `ffmpeg -filter_threads 1 … astats` and `sox stats` on the same files, taking turns.
 * Fails where one of ours is not 2.5 times as fast as ffmpeg (in plain code: slower than it), takes more than 32 MB,
 * or holds the page up.
 * Run: node test/bench/measure.mjs
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { bundled } from "../tools/bundle.mjs";
import { openPage } from "./measure-page.mjs";
import { writeMultitrack } from "./multitrack.mjs";

const SECONDS = 180;
const ROUNDS = 5;
/** Least speed against ffmpeg; of plain code, which runs where there is no WebAssembly, in Node. */
const LEAST = { node: 2.5, worker: 2.5, plain: 1 };
/** Most memory over the baseline, bytes. */
const MOST_MEMORY = 32e6;
/** Longest that the page may be held up, ms. */
const LONGEST_TASK = 50;

const fail = (why) => {
  console.error(`recordings: ${why}`);
  process.exitCode = 1;
};

const run = (command, args) => {
  const begin = performance.now();
  const done = spawnSync(command, args, { encoding: "utf8" });
  if (done.status !== 0) throw new Error(`${command}: ${done.error ?? done.stderr}`);
  return { took: performance.now() - begin, text: done.stdout };
};
const sum = (list) => list.reduce((all, x) => all + x, 0);
const middle = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

const child = join(import.meta.dirname, "measure-child.mjs");
const inNode = (engine, way, paths) =>
  JSON.parse(run(process.execPath, ["--expose-gc", child, engine, way, ...paths]).text);
const ffmpeg = (path) =>
  run("ffmpeg", [
    "-nostdin",
    "-v",
    "error",
    "-filter_threads",
    "1",
    "-i",
    path,
    "-af",
    "astats",
    "-f",
    "null",
    "-",
  ]).took;
const sox = (path) => run("sox", [path, "-n", "stats"]).took;

const folder = mkdtempSync(join(tmpdir(), "bench-"));
try {
  const paths = await writeMultitrack(folder, SECONDS);
  const engine = await bundled("src/measure/engine.ts");
  const page = await openPage(paths);
  const rows = [];
  for (let round = 0; round < ROUNDS; round += 1)
    rows.push({
      node: inNode(engine, "fast", paths),
      plain: inNode(engine, "plain", paths),
      ffmpeg: { took: sum(paths.map(ffmpeg)) },
      sox: { took: sum(paths.map(sox)) },
      worker: await page.measure(),
    });
  const longest = await page.longest();
  await page.close();

  const time = (who) => middle(rows.map((row) => row[who].took));
  const ratio = (theirs, ours) => middle(rows.map((row) => row[theirs].took / row[ours].took));
  const memory = (who) => Math.max(...rows.map((row) => row[who].memory));
  console.log(
    `recordings: ${SECONDS} s × ${paths.length} tracks, 48 kHz, 24 bits; middle of ${ROUNDS} rounds`,
  );
  for (const who of [...Object.keys(LEAST), "ffmpeg", "sox"])
    console.log(`  ${who.padEnd(7)} ${time(who).toFixed(0)} ms`);
  for (const who of Object.keys(LEAST))
    console.log(
      `  ${who}: ${ratio("ffmpeg", who).toFixed(2)} times as fast as ffmpeg astats, ${ratio("sox", who).toFixed(2)} times as fast as sox stats; most memory over before ${(memory(who) / 1e6).toFixed(1)} MB`,
    );
  console.log(`  longest task of the page's own thread meanwhile ${longest.toFixed(1)} ms`);
  for (const who of Object.keys(LEAST)) {
    if (ratio("ffmpeg", who) < LEAST[who]) fail(`${who} is not ${LEAST[who]} times as fast as ffmpeg`);
    if (memory(who) > MOST_MEMORY) fail(`${who} takes more than ${MOST_MEMORY / 1e6} MB`);
  }
  if (longest > LONGEST_TASK) fail(`the page is held up for more than ${LONGEST_TASK} ms`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
