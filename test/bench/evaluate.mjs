/*
 * `evaluate` with every figure looked at, for 8, 64 and 512 channels and 8 listeners, against a bare loop that does only
 * the gains; recommendation and patch beside it; and the size of the first load beside the floor.
 * Fails where 64 channels with everything and the recommendation take more than 3 ms.
 * Run: node test/bench/evaluate.mjs
 */
import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { bundle } from "../tools/bundle.mjs";
import { fastest, held } from "./clock.mjs";

const { crowded, evaluate, exampleSetup, listenerImages, patchFigures, recommend } =
  await bundle("test/bench/core.ts");

const LISTENERS = 8;
/** Most for everything there is of 64 channels, ms. */
const MOST = 3;
/** Bytes in brotli of a page that does nothing, on the same packages: measured once, by hand. */
const FLOOR = 9149;

/** Every figure there is, looked at: each is worked out only when somebody looks. */
const everything = (setup) => {
  const figures = evaluate(setup);
  const images = listenerImages(setup, figures.mixed);
  return [
    setup.buses.map((bus) => Object.values(figures.buses.get(bus.id))),
    setup.listeners.map((listener) => Object.values(images.get(listener.id))),
    Object.values(figures),
  ];
};
/** Every recommendation for the bus, the best one spelt out. */
const recommendations = (setup) => {
  const [best] = recommend(setup, setup.buses[0]);
  return [best.steps, best.outcomes, best.notes];
};

/** Left and right gain of every channel, and no more: what any program for this must do. */
const bareGains = ({ channels, buses: [{ sends }] }) => {
  let left = 0;
  let right = 0;
  for (let at = 0; at < sends.length; at += 1) {
    const turn = ((channels[at].pan + 1) * Math.PI) / 4;
    const gain = 10 ** ((sends[at].level ?? Number.NEGATIVE_INFINITY) / 20);
    left += (gain * Math.cos(turn)) ** 2;
    right += (gain * Math.sin(turn)) ** 2;
  }
  return left + right;
};

const CALLS = 40;
/** Milliseconds of one call, by the fastest of some rounds of many. */
const timed = (run) =>
  fastest(() => {
    for (let call = 0; call < CALLS; call += 1) run();
  }) / CALLS;

const rows = [8, 64, 512].map((count) => {
  const setup = crowded(exampleSetup(), count, LISTENERS);
  const [all, search, patch, bare] = [everything, recommendations, patchFigures, bareGains].map((run) =>
    timed(() => run(setup)),
  );
  return {
    channels: count,
    listeners: setup.listeners.length,
    "evaluate ms": all.toFixed(3),
    "bare gains ms": bare.toFixed(5),
    "evaluate / bare": Math.round(all / bare),
    "recommendation ms": search.toFixed(3),
    "both ms": count === 64 ? held("everything, 64 channels", all + search, MOST) : (all + search).toFixed(1),
    "patch ms": patch.toFixed(3),
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
