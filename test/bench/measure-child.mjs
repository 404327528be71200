/*
 * One measurement of WAV files in Node, in a process of its own, so that its memory is its own.
 * Prints milliseconds and the most memory over what the process took before it, as JSON.
 */
import { open } from "node:fs/promises";
import { basename } from "node:path";
import { bundle } from "../tools/bundle.mjs";

const { runJob } = await bundle("src/measure/engine.ts");

/** Slices of a file, as a page's Blob gives them; two buffers take turns, as no more than two are in use. */
const sliced = async (path) => {
  const file = await open(path);
  const { size } = await file.stat();
  const spare = [new ArrayBuffer(0), new ArrayBuffer(0)];
  const slice = (from, to) => ({
    arrayBuffer: async () => {
      const length = Math.min(to, size) - from;
      let buffer = spare.shift();
      if (buffer.byteLength !== length) buffer = new ArrayBuffer(length);
      spare.push(buffer);
      await file.read(new Uint8Array(buffer), 0, length, from);
      return buffer;
    },
  });
  return { size, slice };
};

const paths = process.argv.slice(2);
const inputs = [];
for (const path of paths) inputs.push({ kind: "file", name: basename(path), file: await sliced(path) });
const tracks = inputs.map((_, input) => {
  const turn = (input / Math.max(1, inputs.length - 1)) * (Math.PI / 2);
  return { input, channel: 0, gains: [Math.cos(turn), Math.sin(turn)] };
});

globalThis.gc?.();
const before = process.memoryUsage().rss;
let most = before;
const look = () => {
  most = Math.max(most, process.memoryUsage.rss());
};
const begin = performance.now();
const outcome = await runJob({ inputs, tracks, align: "start" }, look);
const took = performance.now() - begin;
look();
if (outcome.kind === "refused") throw new Error(outcome.why.join(" "));
console.log(JSON.stringify({ took, memory: most - before }));
process.exit(0);
