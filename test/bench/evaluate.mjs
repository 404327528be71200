/*
 * `evaluate` with every figure looked at, for 8, 64 and 512 sources and 8 listeners, against a bare loop that does only
 * the gains, taking turns; every recommendation beside it; and the size of the first load beside the floor.
 * Run: node test/bench/evaluate.mjs
 */
import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { bundle } from "../tools/bundle.mjs";
import { crowded } from "./crowd.mjs";

const { evaluate } = await bundle("src/core/evaluate.ts");
const { recommend } = await bundle("src/core/recommend/recommend.ts");
const { exampleSetup } = await bundle("src/document/example.ts");

const LISTENERS = 8;
const ROUNDS = 7;
const ROUND_MS = 120;
/** Bytes in brotli of a page that does nothing, on the same packages: measured once, by hand. */
const FLOOR = 9149;

/** Every figure there is, looked at: each is worked out only when somebody looks. */
const everything = (setup) => {
  const figures = evaluate(setup);
  return [figures.parts, figures.sums, figures.images, figures.ear, figures.patch].length;
};
const recommendations = (setup) => recommend(setup, setup.sums[0]).length;

/** Left and right gain of every source, and no more: what any program for this must do. */
const bareGains = ({ sources, sums: [{ sends }] }) => {
  let left = 0;
  let right = 0;
  for (let at = 0; at < sends.length; at += 1) {
    const turn = ((sources[at].pan + 1) * Math.PI) / 4;
    const gain = 10 ** ((sends[at].level ?? Number.NEGATIVE_INFINITY) / 20);
    left += (gain * Math.cos(turn)) ** 2;
    right += (gain * Math.sin(turn)) ** 2;
  }
  return left + right;
};

/** Milliseconds of one call, over as many calls as fill a round. */
const timed = (run) => {
  const begin = performance.now();
  let calls = 0;
  for (; performance.now() - begin < ROUND_MS; calls += 1) run();
  return (performance.now() - begin) / calls;
};

const rows = [8, 64, 512].map((count) => {
  const setup = crowded(exampleSetup(), count, LISTENERS);
  const best = [everything, recommendations, bareGains].map((run) => ({ run, ms: Number.POSITIVE_INFINITY }));
  for (let round = 0; round < ROUNDS; round += 1)
    for (const one of best)
      one.ms = Math.min(
        one.ms,
        timed(() => one.run(setup)),
      );
  const [all, search, bare] = best.map(({ ms }) => ms);
  return {
    sources: count,
    listeners: setup.listeners.length,
    "evaluate ms": all.toFixed(3),
    "bare gains ms": bare.toFixed(5),
    "evaluate / bare": Math.round(all / bare),
    "recommendations ms": search.toFixed(3),
  };
});
console.table(rows);

const dist = resolve(import.meta.dirname, "../../dist");
if (existsSync(join(dist, "index.html"))) {
  const page = readFileSync(join(dist, "index.html"), "utf8");
  const linked = [...page.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.(js|css))"/g)];
  const size = (kind) =>
    linked
      .filter(([, , ext]) => ext === kind)
      .reduce((sum, [, file]) => sum + brotliCompressSync(readFileSync(join(dist, file))).length, 0);
  console.log(
    `first load, brotli: ${size("js")} B JS (floor ${FLOOR} B, ${(size("js") / FLOOR).toFixed(1)} times), ${size("css")} B CSS`,
  );
} else console.log("first load: npm run build first");
