import type { Hertz, Seconds } from "../core/model/units";
import { noise } from "./noise";
import type { Round } from "./round";
import { fadeEnds } from "./seam";
import type { ViewGains } from "./views";

/** What a path is checked with by somebody alone: the count of beeps tells the sides apart, whichever ear they come to. */
export type WalkName = "beeps" | "noise" | "tone";

/** A round and the gains of its voices into left and right. */
export interface Walk {
  readonly round: Round;
  readonly gains: ViewGains;
}

/** Pitch of beep and tone: the usual line-up tone (common practice, no source). */
const PITCH: Hertz = 1000;
/** Length of a beep, and from the beginning of one to the next. Design choices: slow enough to be counted. */
const BEEP: Seconds = 0.15;
const APART: Seconds = 0.35;
/** Silence behind the beeps of a side, so that three are never taken for one and two. */
const REST: Seconds = 1;
/** Largest sample of each signal, share of full scale. */
const PEAK = 0.9;
/** Length of the noise before it comes again: longer than anybody hears it turn. */
const NOISE: Seconds = 6;

/** Beeps of each side: left, right, both. */
const COUNTS = [
  { beeps: 1, sides: [1, 0] },
  { beeps: 2, sides: [0, 1] },
  { beeps: 3, sides: [1, 1] },
] as const;

const sine = (rate: Hertz, length: number): Float32Array<ArrayBuffer> =>
  Float32Array.from({ length }, (_, i) => PEAK * Math.sin((2 * Math.PI * PITCH * i) / rate));

const beep = (rate: Hertz): Float32Array<ArrayBuffer> => {
  const samples = sine(rate, Math.round(BEEP * rate));
  fadeEnds(samples, rate);
  return samples;
};

/** One beep on the left, two on the right, three on both, and again. */
const beeps = (rate: Hertz): Walk => {
  const samples = beep(rate);
  const voices: { samples: typeof samples; at: number }[] = [];
  const gains: (readonly [number, number])[] = [];
  let at = 0;
  for (const { beeps: count, sides } of COUNTS) {
    for (let n = 0; n < count; n += 1) {
      voices.push({ samples, at: Math.round(at * rate) });
      gains.push(sides);
      at += APART;
    }
    at += REST;
  }
  return { round: { voices, rate, length: Math.round(at * rate) }, gains };
};

/** Octaves that pink noise is made of, from the lowest corner on: 10 Hz … 20 kHz. */
const LOWEST: Hertz = 10;
const OCTAVES = 12;

/**
 * Pink noise, the power of each octave alike within 0.3 dB from 30 Hz to 10 kHz: independent noises through low-passes of
 * the first order an octave apart, each with half the power density of the one below it, add up to a slope of 3 dB an
 * octave (a textbook model of 1/f noise).
 */
export const pinkNoise = (rate: Hertz, length: number): Float32Array<ArrayBuffer> => {
  const samples = new Float32Array(length);
  // One after the other from one generator: by seeds next to each other its numbers would go alike.
  const random = noise(1);
  for (let octave = 0; octave < OCTAVES; octave += 1) {
    const corner = LOWEST * 2 ** octave;
    const keep = Math.exp((-2 * Math.PI * corner) / rate);
    const gain = (1 - keep) * Math.sqrt(1 / corner);
    let state = 0;
    for (let i = 0; i < length; i += 1) {
      state = keep * state + gain * random();
      samples[i] = (samples[i] as number) + state;
    }
  }
  const top = samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  return samples.map((x) => (PEAK / top) * x);
};

const steadyNoise = (rate: Hertz): Walk => {
  const samples = pinkNoise(rate, NOISE * rate);
  fadeEnds(samples, rate);
  return { round: { voices: [{ samples, at: 0 }], rate, length: samples.length }, gains: [[1, 1]] };
};

/** Whole waves, so that nobody hears where it begins again. */
const steadyTone = (rate: Hertz): Walk => {
  const samples = sine(rate, rate);
  return { round: { voices: [{ samples, at: 0 }], rate, length: samples.length }, gains: [[1, 1]] };
};

const MADE: { readonly [name in WalkName]: (rate: Hertz) => Walk } = {
  beeps,
  noise: steadyNoise,
  tone: steadyTone,
};

/** What goes round, for `newOutput`. */
export const walkOf = (name: WalkName, rate: Hertz): Walk => MADE[name](rate);
