import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { levelOf } from "../../src/core/level/decibels";
import type { TrackFigures } from "../../src/core/measure/figures";
import { expectNear } from "../near";
import { noise } from "../tools/chance.mjs";
import { measureBytes } from "./job";
import { type WavPlan, wavFile } from "./wavfile";

/**
 * The same files through two programs of other people: sox 14.4 (`stat`, and `rate` for the peaks between samples)
 * and ffmpeg 5.1 (`astats`, `ebur128`). Both are packages of Debian; without them these tests fail.
 */
const RATE = 48_000;

const kit = (seconds: number): Float64Array => {
  const random = noise(11);
  return Float64Array.from({ length: seconds * RATE }, (_, i) => {
    const t = (i % 12_000) / RATE;
    const drum = Math.sin(2 * Math.PI * 90 * t) * Math.exp(-t / 0.08);
    const skin = random() * Math.exp(-t / 0.02);
    return 0.45 * drum + 0.4 * skin + 0.003;
  });
};
const sine = Float64Array.from(
  { length: 2 * RATE },
  (_, i) => 0.5 * Math.sin((2 * Math.PI * 997 * i) / RATE),
);
const random = noise(12);
let last = 0;
const rumble = Float64Array.from({ length: 2 * RATE }, () => {
  last = 0.9 * last + 0.1 * random();
  return last;
});

const files: readonly [name: string, samples: Float64Array, plan: WavPlan][] = [
  ["sine, 24 bits", sine, {}],
  ["kit, 16 bits", kit(3), { width: 2 }],
  ["kit, 24 bits", kit(3), {}],
  ["kit, 24 bits, extensible", kit(3), { extensible: true }],
  ["kit, 32 bits", kit(3), { width: 4 }],
  // 24 valid bits in 32 are left out: sox 14.4 refuses them ("not supported yet"), ffmpeg 5.1 takes them for floats.
  ["kit, floating point", kit(3), { coding: "float", width: 4 }],
  ["kit, 44.1 kHz", kit(3), { rate: 44_100 }],
  ["noise, 24 bits", rumble, {}],
];

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "measure-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const number = (text: string, before: RegExp): number => {
  const found = new RegExp(`${before.source}\\s*(-?[\\d.]+)`).exec(text);
  if (!found) throw new Error(`no ${before.source} in: ${text.slice(0, 400)}`);
  return Number(found[1]);
};

/** sox prints amplitudes with six digits behind the point, of samples counted in thousands of 2^−31. */
const SOX_UNIT = 2 ** 31 / 1000;
const sox = (path: string, ...effects: string[]): { rms: number; peak: number } => {
  const run = spawnSync("sox", [path, "-n", ...effects, "stat", "-s", "1000"], { encoding: "utf8" });
  if (run.status !== 0) throw new Error(`sox: ${run.error ?? run.stderr}`);
  const peaks = [number(run.stderr, /Maximum amplitude:/), number(run.stderr, /Minimum amplitude:/)];
  return {
    rms: levelOf(number(run.stderr, /RMS {5}amplitude:/) / SOX_UNIT),
    peak: levelOf(Math.max(...peaks.map(Math.abs)) / SOX_UNIT),
  };
};

const ffmpeg = (path: string, filter: string): string => {
  const run = spawnSync(
    "ffmpeg",
    ["-nostdin", "-hide_banner", "-i", path, "-af", filter, "-f", "null", "-"],
    { encoding: "utf8" },
  );
  if (run.status !== 0) throw new Error(`ffmpeg: ${run.error ?? run.stderr}`);
  return run.stdout + run.stderr;
};

describe("beside sox and ffmpeg", () => {
  it("both are here", () => {
    expect(execFileSync("sox", ["--version"], { encoding: "utf8" })).toContain("SoX");
    expect(execFileSync("ffmpeg", ["-version"], { encoding: "utf8" })).toContain("ffmpeg version");
  });

  it.each(files)("%s", async (name, samples, plan) => {
    const bytes = wavFile([samples], plan);
    const path = join(folder, `${name.replaceAll(/\W+/g, "-")}.wav`);
    writeFileSync(path, bytes);
    const outcome = await measureBytes(bytes, [[1, 1]]);
    if (outcome.kind === "refused") throw new Error(JSON.stringify(outcome.why));
    const ours = outcome.measurement.figures.tracks[0] as TrackFigures;

    const theirs = sox(path);
    expectNear(ours.rms, theirs.rms, 1e-5, "rms, sox");
    expectNear(ours.peak, theirs.peak, 1e-5, "peak, sox");
    const fine = sox(path, "rate", "-v", String((plan.rate ?? RATE) * 4));
    expectNear(ours.truePeak, fine.peak, 0.2, "true peak, sox at four times the rate");

    // Of 16-bit samples astats takes 32767 as full scale, not 32768; of doubles it takes 1.
    const stats = ffmpeg(path, "aformat=sample_fmts=dbl,astats");
    expectNear(ours.rms, number(stats, /RMS level dB:/), 1e-5, "rms, ffmpeg");
    expectNear(ours.peak, number(stats, /Peak level dB:/), 1e-5, "peak, ffmpeg");
    expectNear(ours.offset, number(stats, /DC offset:/), 1e-6, "offset, ffmpeg");

    const print = "ebur128=peak=true:metadata=1,ametadata=print:key=lavfi.r128.true_peaks_ch0:file=-";
    const peaks = [...ffmpeg(path, print).matchAll(/true_peaks_ch0=([\d.]+)/g)];
    expectNear(ours.truePeak, levelOf(Number(peaks.at(-1)?.[1])), 0.2, "true peak, ffmpeg");
  });
});
