import { keysOf } from "../core/lib/keys";
import type { PieceKind } from "../core/model/setup";
import type { Hertz, Seconds } from "../core/model/units";
import { noise } from "./noise";
import type { Round } from "./round";

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

/** One hit of a kind of piece, always the same samples. Begins and ends at 0. */
export const hitOf = (kind: PieceKind, rate: Hertz): Float32Array<ArrayBuffer> => {
  const { pitch, fall, decay, breath } = RECIPES[kind];
  const random = noise(kind.length * 7919 + pitch);
  const length = Math.round(DECAYS * decay * rate);
  const hit = new Float32Array(length);
  // What shrinks by the same ratio from sample to sample is multiplied on: an exponential for each would take most of the time.
  const shrink = Math.exp(-1 / (decay * rate));
  const settle = Math.exp(-1 / (FALL_TIME * decay * rate));
  const step = (2 * Math.PI * pitch) / rate;
  let level = 1;
  let above = fall - 1;
  let turn = 0;
  let last = 0;
  let peak = 0;
  for (let i = 0; i < length; i += 1) {
    turn += step * (1 + above);
    const now = random();
    // The difference of two neighbours takes the lows out of the noise.
    const hiss = (now - last) / 2;
    last = now;
    const ends = Math.min(1, i / 8, (length - 1 - i) / (decay * rate));
    const sample = ends * level * ((1 - breath) * Math.sin(turn) + breath * hiss);
    hit[i] = sample;
    peak = Math.max(peak, Math.abs(sample));
    level *= shrink;
    above *= settle;
  }
  const scale = PEAK / peak;
  for (let i = 0; i < length; i += 1) hit[i] = (hit[i] as number) * scale;
  return hit;
};

/** A hit of every kind of piece. */
export interface Hits {
  readonly rate: Hertz;
  readonly samples: { readonly [kind in PieceKind]: Float32Array<ArrayBuffer> };
}

const nextTask = (): Promise<void> => new Promise((done) => setTimeout(done));

/** Renders a hit of every kind, each in a task of its own: all at once would hold up the page. */
export const renderHits = async (rate: Hertz): Promise<Hits> => {
  const samples: { [kind in PieceKind]?: Float32Array<ArrayBuffer> } = {};
  for (const kind of keysOf(RECIPES)) {
    await nextTask();
    samples[kind] = hitOf(kind, rate);
  }
  return { rate, samples: samples as Hits["samples"] };
};

/** Time from one piece to the next: one by one, and in a fill. */
export const GAPS = { round: 0.5, fill: 0.125 } as const satisfies { readonly [name: string]: Seconds };

/**
 * The pieces one after the other, going round; what still sounds at the end of a turn sounds on into the next. Pieces
 * of a kind share their samples.
 * @param gap time from one piece to the next
 */
export const roundOf = (kinds: readonly PieceKind[], { rate, samples }: Hits, gap: Seconds): Round => {
  const step = Math.round(gap * rate);
  return {
    voices: kinds.map((kind, k) => ({ samples: samples[kind], at: k * step })),
    rate,
    // Room for the longest hit, so that no hit meets itself.
    length: step * Math.max(kinds.length, Math.ceil((DECAYS * RECIPES.crash.decay) / gap)),
  };
};
