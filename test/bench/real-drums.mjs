import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { bundle } from "../tools/bundle.mjs";
import { numbers } from "../tools/chance.mjs";

/** Single hits of a drum kit: Debian's package hydrogen-data, GPL-2 or later. Read where it is installed, never kept here. */
/**
 * How far the estimated level may lie above the measured one, and below it, dB. Energies add up in the estimate, while
 * the low end that overheads and close microphones share adds up as amplitudes: it may come out lower by more.
 */
const MOST_ABOVE = 1.5;
const MOST_BELOW = 2.5;
const PACKAGE = "hydrogen-data";
const SAMPLES = process.env.DRUM_SAMPLES ?? "/usr/share/hydrogen/data/drumkits/GMRockKit";
const RATE = 44_100;
const SECONDS = 60;
const STRENGTHS = ["Soft", "Med", "Hard", "Hardest"];

/** Pieces: file name, place (right of the throne, in front; metres), limb, hits in sixteenths of a bar, chance of each. */
const PIECES = [
  { name: "Kick", file: "Kick", at: [0, 0.75], limbs: ["kick-foot"], hits: [0, 6, 8, 11], chance: 0.85 },
  { name: "Snare", file: "Snare", at: [-0.1, 0.35], limbs: ["hand"], hits: [4, 12, 15], chance: 0.9 },
  {
    name: "Hat",
    file: "HatClosed",
    at: [-0.5, 0.3],
    limbs: ["hand"],
    hits: [0, 2, 4, 6, 8, 10, 12, 14],
    chance: 0.95,
  },
  { name: "Tom 1", file: "Tom1", at: [-0.17, 0.65], limbs: ["hand"], hits: [13], chance: 0.3 },
  { name: "Tom 2", file: "Tom2", at: [0.2, 0.65], limbs: ["hand"], hits: [14], chance: 0.3 },
  { name: "Floor tom", file: "TomFloor", at: [0.5, 0.25], limbs: ["hand"], hits: [15, 3], chance: 0.25 },
  { name: "Crash", file: "Crash", at: [-0.45, 0.75], limbs: ["hand"], hits: [0], chance: 0.2 },
];
/** Overheads: place, metres. They hear every piece; the close microphones hear the others 20 dB down or less. */
const OVERHEADS = [
  { name: "OH L", at: [-0.6, 0.9] },
  { name: "OH R", at: [0.6, 0.9] },
];
const SPILL = 10 ** (-20 / 20);
const SOUND = 343;
/** Errors are printed with one decimal. */
const HALF_A_DIGIT = 0.05;

const fail = (why) => {
  console.log(`FAIL: ${why}`);
  process.exitCode = 1;
};

/** One evening: every piece alone, with hits of different strengths. */
const play = (samples, seed) => {
  const next = numbers(seed);
  const sixteenth = Math.round((RATE * 15) / (90 + 50 * next()));
  const dry = PIECES.map(() => new Float64Array(SECONDS * RATE));
  for (let bar = 0; (bar + 1) * 16 * sixteenth < SECONDS * RATE; bar += 1)
    for (const [p, piece] of PIECES.entries())
      for (const hit of piece.hits) {
        if (next() > piece.chance) continue;
        const sound = samples[p][Math.floor(next() * STRENGTHS.length)];
        const from = (bar * 16 + hit) * sixteenth + Math.round((next() - 0.5) * 0.006 * RATE) + 200;
        const track = dry[p];
        for (let i = 0; i < sound.length && from + i < track.length; i += 1)
          track[from + i] += 0.7 * sound[i];
      }
  return dry;
};

const far = ([ax, ay], [bx, by], height) => Math.hypot(ax - bx, ay - by, height);

/** What every microphone hears: pieces by distance, in level and time. */
const microphones = (dry) => {
  const hear = (gain, delay) => {
    const out = new Float64Array(SECONDS * RATE);
    dry.forEach((track, p) => {
      const shift = Math.round((delay(p) / SOUND) * RATE);
      for (let i = shift; i < out.length; i += 1) out[i] += gain(p) * track[i - shift];
    });
    return out;
  };
  const close = PIECES.map((own, q) =>
    hear(
      (p) => (p === q ? 1 : Math.min(1, 0.3 / far(own.at, PIECES[p].at, 0)) * SPILL),
      (p) => (p === q ? 0 : far(own.at, PIECES[p].at, 0)),
    ),
  );
  const over = OVERHEADS.map(({ at }) =>
    hear(
      (p) => 0.35 / far(at, PIECES[p].at, 0.9),
      (p) => far(at, PIECES[p].at, 0.9),
    ),
  );
  return [...close.slice(0, 6), ...over];
};

const names = [...PIECES.slice(0, 6), ...OVERHEADS].map(({ name }) => name);
const pans = [0, 0.1, 0.7, 0.3, -0.2, -0.6, 1, -1];

/**
 * Estimate beside measurement on three evenings mixed from real drum samples. Says so when the samples are not there.
 */
export const realDrums = async () => {
  if (!existsSync(join(SAMPLES, "Kick-Hard.wav"))) {
    console.log(
      `real drums: left out, no samples in ${SAMPLES}; install Debian's package ${PACKAGE} or set DRUM_SAMPLES`,
    );
    return;
  }
  const { runJob } = await bundle("src/measure/engine.ts");
  const { readExcerpt } = await bundle("src/measure/excerpt.ts");
  const { wavFile } = await bundle("test/measure/wavfile.ts");
  const { busFigures, drumSetup, mixedChannelsOf } = await bundle("test/bench/core.ts");

  const samples = await Promise.all(
    PIECES.map(({ file }) =>
      Promise.all(
        STRENGTHS.map(async (strength) => {
          const name = `${file}-${strength}.wav`;
          const input = { kind: "file", name, file: new Blob([await readFile(join(SAMPLES, name))]) };
          const job = { inputs: [input], tracks: [{ input: 0, channel: 0, gains: [0, 0] }], align: "start" };
          return (await readExcerpt(job, 0, 3)).tracks[0];
        }),
      ),
    ),
  );

  const shown = (value) => value.toFixed(1).padStart(7);
  console.log(`real drums (${PACKAGE}): estimate − measured, dB`);
  console.log("  evening  side     level  likely  playable  at once  between samples");
  for (const evening of [1, 2, 3]) {
    const tracks = microphones(play(samples, evening * 7919));
    const inputs = tracks.map((track, i) => ({
      kind: "file",
      name: names[i],
      file: new Blob([wavFile([track], { rate: RATE, coding: "float", width: 4 })]),
    }));
    const measure = async (gains) => {
      const outcome = await runJob(
        { inputs, tracks: gains.map((g, input) => ({ input, channel: 0, gains: g })), align: "start" },
        () => {},
      );
      if (outcome.kind === "refused") throw new Error(outcome.why.join(" "));
      return outcome.measurement.figures;
    };
    const alone = await measure(names.map(() => [0, 0]));
    const setup = drumSetup(
      names.map((name, i) => ({
        name,
        pan: pans[i],
        limbs: i < 6 ? PIECES[i].limbs : ["whole"],
        gatedRms: alone.tracks[i].rms,
        peak: alone.tracks[i].peak,
      })),
    );
    const [bus] = setup.buses;
    const figures = await measure(mixedChannelsOf(setup, bus).map((part) => part.gains[0]));
    const { sides, mono } = busFigures(setup, bus);
    for (const [name, estimate] of [
      ["left", sides[0]],
      ["right", sides[1]],
      ["mono", mono],
    ]) {
      const real = figures.mixes[name];
      const cells = [
        estimate.level - real.rms,
        estimate.likely - real.peak,
        estimate.playable - real.peak,
        estimate.allAtOnce - real.peak,
        real.truePeak - real.peak,
      ];
      console.log(`  ${evening}        ${name.padEnd(5)} ${cells.map(shown).join("  ")}`);
      const [level, ...peaks] = cells.slice(0, 4);
      if (level > MOST_ABOVE || -level > MOST_BELOW + HALF_A_DIGIT)
        fail(`the level is ${shown(level).trim()} dB off: more than −${MOST_BELOW} to +${MOST_ABOVE} dB`);
      if (peaks.some((off) => off < -HALF_A_DIGIT)) fail("a peak is estimated too low");
    }
  }
};
