/*
 * `evaluate` with every figure looked at and every repair, for 8, 64 and 512 sources and 8 listeners, against a bare loop that does only the gains, taking turns;
 * and the size of the first load beside the floor.
 * Run: node test/bench/evaluate.mjs
 */
import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { bundle } from "../tools/bundle.mjs";

const { evaluate } = await bundle("src/core/evaluate.ts");
const { repairsFor } = await bundle("src/core/repair/repairs.ts");
const { exampleSetup } = await bundle("src/document/example.ts");

const LISTENERS = 8;
const ROUNDS = 7;
const ROUND_MS = 120;
/** Bytes in brotli of a page that does nothing, on the same packages: measured once, by hand. */
const FLOOR = 9149;

const repeat = (list, count, change) =>
  Array.from({ length: count }, (_, at) => change(list[at % list.length], at));

/** The worked example with more of everything: its sources and their pieces over and over, all in its first pair. */
const setupOf = (count) => {
  const example = exampleSetup();
  const placed = example.sources.filter((source) => source.piece !== null);
  const pieceOf = (id) => example.kit.pieces.find((piece) => piece.id === id);
  const sources = repeat(placed, count, (source, at) => ({ ...source, id: `s${at}`, piece: `p${at}` }));
  const pieces = repeat(placed, count, (source, at) => ({ ...pieceOf(source.piece), id: `p${at}` }));
  const [pair] = example.sums;
  const sends = repeat(pair.sends, count, (send, at) => ({ ...send, source: `s${at}` }));
  const audience = example.listeners.find(({ kind }) => kind === "audience");
  const heard = example.listeners.filter(({ kind }) => kind !== "audience");
  const listeners = [
    audience,
    ...repeat(heard, LISTENERS - 1, (one, at) => ({ ...one, id: `l${at}`, sum: pair.id })),
  ];
  return {
    ...example,
    kit: { ...example.kit, pieces },
    sources,
    sums: [{ ...pair, sends }],
    listeners,
    wishes: { ...example.wishes, first: "l0" },
    monitor: { ...example.monitor, slots: example.monitor.slots.filter((slot) => slot?.feed.kind === "leg") },
  };
};

/** Every figure there is, looked at, and every repair of the pair. */
const everything = (setup) => {
  const figures = evaluate(setup);
  const looked = [figures.parts, figures.sums, figures.images, figures.ear, figures.patch];
  return looked.length + repairsFor(setup, setup.sums[0]).ranked.length;
};

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
  const setup = setupOf(count);
  const best = { evaluate: Number.POSITIVE_INFINITY, bare: Number.POSITIVE_INFINITY };
  for (let round = 0; round < ROUNDS; round += 1) {
    best.evaluate = Math.min(
      best.evaluate,
      timed(() => everything(setup)),
    );
    best.bare = Math.min(
      best.bare,
      timed(() => bareGains(setup)),
    );
  }
  return {
    sources: count,
    listeners: setup.listeners.length,
    "evaluate ms": best.evaluate.toFixed(3),
    "bare gains ms": best.bare.toFixed(5),
    ratio: Math.round(best.evaluate / best.bare),
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
