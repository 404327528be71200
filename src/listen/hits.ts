import type { PieceKind } from "../core/model/setup";
import type { Hertz, Seconds } from "../core/model/units";

/** What one hit sounds like. Made up by ear to be told apart, not to sound like any drum. */
interface Recipe {
  /** Pitch at the end and how much higher it begins, as a ratio. */
  readonly pitch: Hertz;
  readonly fall: number;
  /** Time to 1/e. */
  readonly decay: Seconds;
  /** Share of noise, 0 a tone … 1 noise only. */
  readonly breath: number;
}

const RECIPES: { readonly [kind in PieceKind]: Recipe } = {
  kick: { pitch: 52, fall: 2.5, decay: 0.12, breath: 0.03 },
  snare: { pitch: 190, fall: 1.2, decay: 0.09, breath: 0.6 },
  hat: { pitch: 8000, fall: 1, decay: 0.04, breath: 0.95 },
  tom: { pitch: 140, fall: 1.4, decay: 0.2, breath: 0.05 },
  floor: { pitch: 85, fall: 1.4, decay: 0.28, breath: 0.05 },
  ride: { pitch: 3100, fall: 1, decay: 0.4, breath: 0.55 },
  crash: { pitch: 4700, fall: 1, decay: 0.5, breath: 0.9 },
  percussion: { pitch: 420, fall: 1.3, decay: 0.08, breath: 0.1 },
  overhead: { pitch: 5200, fall: 1, decay: 0.25, breath: 0.85 },
  other: { pitch: 1000, fall: 1, decay: 0.05, breath: 0 },
};

/** Largest sample of every hit: equal, so that none of them leads. */
const PEAK = 0.5;
/** A hit is over after so many decays: 52 dB down. */
const DECAYS = 6;
/** The pitch falls in this share of the decay. */
const FALL_TIME = 0.25;

/** Numbers −1…1 that are the same in every run: a linear congruential generator with the constants of Numerical Recipes. */
const noise = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
};

/** One hit of a kind of piece, always the same samples. Begins and ends at 0. */
export const hitOf = (kind: PieceKind, rate: Hertz): Float32Array => {
  const { pitch, fall, decay, breath } = RECIPES[kind];
  const random = noise(kind.length * 7919 + pitch);
  const length = Math.round(DECAYS * decay * rate);
  const raw = new Float64Array(length);
  let turn = 0;
  let last = 0;
  let peak = 0;
  for (let i = 0; i < length; i += 1) {
    const t = i / rate;
    turn += (2 * Math.PI * pitch * (1 + (fall - 1) * Math.exp(-t / (FALL_TIME * decay)))) / rate;
    const now = random();
    // The difference of two neighbours takes the lows out of the noise.
    const hiss = (now - last) / 2;
    last = now;
    const end = Math.min(1, (length - 1 - i) / (decay * rate));
    raw[i] =
      end * Math.exp(-t / decay) * ((1 - breath) * Math.sin(turn) + breath * hiss) * Math.min(1, i / 8);
    peak = Math.max(peak, Math.abs(raw[i] as number));
  }
  return Float32Array.from(raw, (x) => (PEAK * x) / peak);
};

/** Time from one piece to the next: one by one, and in a fill. */
export const GAPS = { round: 0.5, fill: 0.125 } as const satisfies { readonly [name: string]: Seconds };

/**
 * The pieces one after the other, each in a track of its own; all tracks are equally long, so that they can go round
 * together. What still sounds at the end goes on at the beginning.
 * @param gap time from one piece to the next
 */
export const roundOf = (
  kinds: readonly PieceKind[],
  rate: Hertz,
  gap: Seconds = GAPS.round,
): Float32Array[] => {
  const step = Math.round(gap * rate);
  // Room for the longest hit, so that no hit meets itself.
  const length = step * Math.max(kinds.length, Math.ceil((DECAYS * RECIPES.crash.decay) / gap));
  return kinds.map((kind, k) => {
    const track = new Float32Array(length);
    hitOf(kind, rate).forEach((x, i) => {
      track[(k * step + i) % length] = x;
    });
    return track;
  });
};
