/*
 * One measurement of WAV files in Node, in a process of its own, so that its memory is its own: address of the bundled
 * engine, "plain" for a browser without WebAssembly or "fast", then the files. Prints milliseconds and the most memory over what the process took before it, as JSON.
 */
import { open } from "node:fs/promises";
import { basename } from "node:path";
import { watchMemory } from "./memory.mjs";

const [engine, way, ...paths] = process.argv.slice(2);
if (way === "plain") delete globalThis.WebAssembly;
const { runJob } = await import(engine);

/** Slices of a file, as a page's Blob gives them. */
const sliced = async (path) => {
  const file = await open(path);
  const { size } = await file.stat();
  const slice = (from, to) => {
    let at = from;
    const stream = () =>
      new ReadableStream({
        type: "bytes",
        pull: async (controller) => {
          const { view } = controller.byobRequest;
          const { bytesRead } = await file.read(view, 0, view.byteLength, at);
          at += bytesRead;
          controller.byobRequest.respond(bytesRead);
        },
      });
    const arrayBuffer = async () => {
      const bytes = new Uint8Array(Math.min(to, size) - from);
      await file.read(bytes, 0, bytes.length, from);
      return bytes.buffer;
    };
    return { stream, arrayBuffer };
  };
  return { size, slice };
};

const inputs = [];
for (const path of paths) inputs.push({ kind: "file", name: basename(path), file: await sliced(path) });
const tracks = inputs.map((_, input) => {
  const turn = (input / Math.max(1, inputs.length - 1)) * (Math.PI / 2);
  return { input, channel: 0, gains: [Math.cos(turn), Math.sin(turn)] };
});

globalThis.gc?.();
const memory = watchMemory("self");
const begin = performance.now();
const outcome = await runJob({ inputs, tracks, align: "start" }, () => {});
const took = performance.now() - begin;
if (outcome.kind === "refused") throw new Error(JSON.stringify(outcome.why));
console.log(JSON.stringify({ took, memory: memory() }));
process.exit(0);
