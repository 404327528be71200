/*
 * A whole measurement (correlation, true peak, F and S, the pair) of 3 min × 8 tracks, 48 kHz, 24 bits, in Node and in
 * the browser's worker, beside `ffmpeg -filter_threads 1 … astats` and `sox stats` on the same files, taking turns.
 * Then estimate beside measurement on a multitrack mixed from real drum samples, if their package is installed.
 * Run: node test/bench/measure.mjs
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { serveRooms } from "../tools/rooms-site.mjs";
import { writeMultitrack } from "./multitrack.mjs";
import { realDrums } from "./real-drums.mjs";

const SECONDS = 180;
const ROUNDS = 5;
/** Least speed against ffmpeg, and most memory over the baseline, bytes. */
const LEAST = 1;
const MOST_MEMORY = 32e6;

const run = (command, args) => {
  const begin = performance.now();
  const done = spawnSync(command, args, { encoding: "utf8" });
  if (done.status !== 0) throw new Error(`${command}: ${done.error ?? done.stderr}`);
  return { took: performance.now() - begin, text: done.stdout };
};
const sum = (list) => list.reduce((all, x) => all + x, 0);
const middle = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

const child = join(import.meta.dirname, "measure-child.mjs");
const inNode = (paths) => JSON.parse(run(process.execPath, ["--expose-gc", child, ...paths]).text);
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

/** A page whose file field holds the tracks. */
const openPage = async (paths) => {
  const site = await serveRooms("test/browser/rooms-page.ts");
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox"],
  });
  const page = await browser.newPage();
  await page.goto(site.url);
  await page.waitForFunction(() => "rooms" in globalThis);
  await page.evaluate(() => {
    const field = document.createElement("input");
    field.type = "file";
    field.multiple = true;
    document.body.append(field);
  });
  await page.setInputFiles("input", paths);
  const measure = () =>
    page.evaluate(async () => {
      const inputs = [...document.querySelector("input").files].map((file) => ({
        kind: "file",
        name: file.name,
        file,
      }));
      const tracks = inputs.map((_, input) => ({
        input,
        channel: 0,
        gains: [Math.cos((input * Math.PI) / 14), Math.sin((input * Math.PI) / 14)],
      }));
      const begin = performance.now();
      const outcome = await globalThis.rooms.measure(new AbortController().signal, {
        inputs,
        tracks,
        align: "start",
      });
      if (outcome.kind === "refused") throw new Error(outcome.why.join(" "));
      return performance.now() - begin;
    });
  const close = async () => {
    await browser.close();
    await site.stop();
  };
  return { measure, close };
};

const folder = mkdtempSync(join(tmpdir(), "bench-"));
try {
  const paths = await writeMultitrack(folder, SECONDS);
  const page = await openPage(paths);
  const rows = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const node = inNode(paths);
    const theirs = sum(paths.map(ffmpeg));
    rows.push({
      node: node.took,
      memory: node.memory,
      ffmpeg: theirs,
      sox: sum(paths.map(sox)),
      worker: await page.measure(),
    });
  }
  await page.close();

  const time = (key) => middle(rows.map((row) => row[key]));
  const ratio = (theirs, ours) => middle(rows.map((row) => row[theirs] / row[ours]));
  const memory = Math.max(...rows.map((row) => row.memory));
  console.log(
    `recordings: ${SECONDS} s × ${paths.length} tracks, 48 kHz, 24 bits; middle of ${ROUNDS} rounds`,
  );
  for (const key of ["node", "worker", "ffmpeg", "sox"])
    console.log(`  ${key.padEnd(7)} ${time(key).toFixed(0)} ms`);
  for (const ours of ["node", "worker"])
    console.log(
      `  ${ours} is ${ratio("ffmpeg", ours).toFixed(2)} times as fast as ffmpeg astats, ${ratio("sox", ours).toFixed(2)} times as fast as sox stats`,
    );
  console.log(`  memory over the baseline (Node): ${(memory / 1e6).toFixed(1)} MB`);
  if (ratio("ffmpeg", "node") < LEAST || memory > MOST_MEMORY) {
    console.error("recordings: slower than ffmpeg, or more than 32 MB");
    process.exitCode = 1;
  }
  await realDrums();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
