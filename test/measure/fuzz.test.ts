import { expect, it } from "vitest";
import type { Bytes } from "../../src/measure/bytes";
import { sliceOf } from "../../src/measure/wav/decode";
import { openWav } from "../../src/measure/wav/open";
import { describeSoundFile } from "../../src/text/sound-files";
import { noise } from "../tools/chance.mjs";
import { measureBytes, numbersIn } from "./job";
import { bext, type WavPlan, wavFile } from "./wavfile";

const RUNS = 100_000;
const random = noise(20_240_607);
const below = (limit: number): number => Math.floor(((random() + 1) / 2) * limit) % limit;

const junk = Uint8Array.from({ length: 9 }, () => below(256));
const plans: readonly WavPlan[] = [
  {},
  { width: 2, behind: [["LIST", junk]] },
  { width: 4, bits: 24, extensible: true },
  { coding: "float", width: 4, before: [["JUNK", junk]] },
  { coding: "float", width: 8, form: "RF64" },
  { form: "BW64", between: [["bext", bext(480)]] },
];
const seeds = plans.map((plan, i) =>
  wavFile(
    Array.from({ length: 1 + (i % 3) }, () => [0.5, -0.25, 0.125, 1, -1]),
    plan,
  ),
);

/** Values that break arithmetic rather than text. */
const HARD = [0, 1, 2, 7, 0x7f, 0x80, 0xff, 0xfe];

/** A seed with bytes changed, cut out, doubled or cut off. */
const mutate = (): Uint8Array => {
  let bytes = (seeds[below(seeds.length)] as Uint8Array).slice();
  for (let change = below(6); change >= 0; change -= 1) {
    const at = below(Math.max(1, bytes.length));
    const kind = below(8);
    if (kind < 4) bytes[at] = kind < 2 ? below(256) : (HARD[below(HARD.length)] as number);
    else if (kind === 4) bytes.set([255, 255, 255, 255].slice(0, bytes.length - at), at);
    else if (kind === 5) bytes = bytes.slice(0, at);
    else if (kind === 6) bytes = new Uint8Array([...bytes.slice(0, at), ...bytes.slice(at + 1 + below(8))]);
    else bytes = new Uint8Array([...bytes.slice(0, at), ...bytes.slice(Math.max(0, at - 12))]);
  }
  return bytes;
};

/** Counts reads: a reader that goes round in circles reads for ever. */
const counted = (bytes: Uint8Array): Bytes & { readonly reads: () => number } => {
  let reads = 0;
  return {
    size: bytes.length,
    read: async (at, length) => {
      reads += 1;
      if (at < 0 || length < 0 || !Number.isFinite(at + length))
        throw new RangeError(`read of ${length} at ${at}`);
      return bytes.slice(at, at + length);
    },
    reads: () => reads,
  };
};

/** An expectation that costs nothing where it holds; it shows the file where it does not. */
const must = (holds: boolean, what: string, bytes: Uint8Array): void => {
  if (!holds) throw new Error(`${what}: ${[...bytes].join(" ")}`);
};

it(`${RUNS} broken files: each is opened or refused with a sentence, in a bounded number of reads`, async () => {
  let opened = 0;
  for (let run = 0; run < RUNS; run += 1) {
    const bytes = mutate();
    const channel = counted(bytes);
    const result = await openWav(channel);
    must(channel.reads() <= bytes.length / 8 + 6, "reads without end", bytes);
    if (!result.ok) {
      must(describeSoundFile({ code: "wav", name: "x", note: result.why }).length > 11, "no sentence", bytes);
      continue;
    }
    opened += 1;
    const { wav } = result;
    const frameBytes = wav.width * wav.channels;
    const end = wav.dataAt + wav.frames * frameBytes;
    must(end <= bytes.length, "frames that are not there", bytes);
    const out = new Float64Array(wav.frames);
    sliceOf(wav, bytes.slice(wav.dataAt, end)).decode(wav.channels - 1, 0, wav.frames, out, 0);
    must(wav.coding === "float" || out.every((x) => Math.abs(x) <= 1), "samples beyond full scale", bytes);
  }
  // Both ways are well travelled, or the mutations are too weak or too strong.
  expect(opened).toBeGreaterThan(RUNS / 10);
  expect(opened).toBeLessThan(RUNS * 0.9);
}, 60_000);

it("broken files measured to the end: never NaN", async () => {
  for (let run = 0; run < 1000; run += 1) {
    const outcome = await measureBytes(mutate(), [[1, 0.5]]);
    if (outcome.kind === "refused")
      expect(outcome.why.map(describeSoundFile).join(" ")).toMatch(/^“take\.wav” .+\.$/);
    else expect(numbersIn(outcome.measurement).filter(Number.isNaN)).toEqual([]);
  }
}, 30_000);
