import { levelOfPower } from "../level/decibels";
import { PLAIN_LOOPS } from "../measure/plain-loops";
import { newScan, scanner } from "../measure/scan";
import type { Hertz, Seconds, Sides } from "../model/units";
import { levelDifference } from "../stereo/position";
import { FIRST_WAVE_DONE, type FirstWave, firstWaves } from "./first-wave";
import type { FoundHit, HitFinder, MeasuredHit } from "./hit";

/** The signal is looked at in hops of a millisecond. */
const HOP: Seconds = 0.001;
/** Hops over which a hit is measured: two before its onset, for what builds up. A design choice. */
const WINDOW = 150;
const BEFORE_ONSET = 2;
/** Hops in front of those over which the noise of a hit is measured; none nearer, for a soft beginning. */
const NOISE_HOPS = 40;
const NOISE_GAP = 5;
/** Hops kept: what a hit and the noise before it need. */
const KEPT = 256;
/** Hops before anything is found: without them there is no noise to compare with. */
const FIRST = NOISE_HOPS + NOISE_GAP + BEFORE_ONSET;

/** Hops that a short level is a mean of. */
const SHORT = 3;
/** What is louder than the loudest short level from so many to so many hops ago begins anew: longer than half a wave of the lowest drum. */
const RECENT_FROM = 4;
const RECENT_TO = 15;
/** A hit rises by so much over what is recent in one of the bands, and over the noise, as power: 6.5 and 12 dB. Design choices. */
const RISE = 10 ** 0.65;
const OVER_NOISE = 10 ** 1.2;
/** A second hit is looked for from so many hops after the onset: sooner, the first may still be on its way. */
const SECOND_FROM = 14;
/** A rise is a second hit only if the band comes so near to the loudest of the first, as power: −16 dB. */
const SECOND_LEAST = 10 ** -1.6;
/** And a hit begins only in a band that has no less than this share of the power: −10 dB. */
const FIRST_LEAST = 10 ** -1;

/** Bands that are looked at apart: a kick is lost in what a cymbal has of treble, a hat in what a kick has of bass. */
const SPLITS: readonly Hertz[] = [150, 2000];
const BANDS = SPLITS.length + 1;

/** What a hit leaves ringing may swell again so far below its loudest, and further by so much a hop (12 dB a second), as power: 18 dB. Design choices. */
const RINGS = 10 ** -1.8;
const RINGING_FALLS = 10 ** (-1.2 * HOP);

/** Noise never counts as less than this (−90 dBFS), so that digital silence is not all noise. */
const LEAST_NOISE = 10 ** -9;
/** The noise follows a quieter hop by this share, and rises by so much a hop (6 dB a second). */
const FOLLOWS = 0.05;
const RISES = 10 ** (0.6 * HOP);
/** How much of the noise before a hit may have changed until its end, as a share of its power. A design choice. */
const UNSTEADY = 0.3;

/** Splits one side into bands by low-pass filters of the first order, twice each. */
const splitter = (rate: Hertz) => {
  const shares = SPLITS.map((split) => -Math.expm1((-2 * Math.PI * split) / rate));
  const states = SPLITS.map(() => new Float64Array(2));
  /** Adds the power of x[from…to) in each band to `powers`. */
  return (powers: Float64Array, x: Float64Array, from: number, to: number): void => {
    for (let i = from; i < to; i += 1) {
      let below = 0;
      for (let band = 0; band < states.length; band += 1) {
        const state = states[band] as Float64Array;
        const share = shares[band] as number;
        const first = (state[0] as number) + share * ((x[i] as number) - (state[0] as number));
        const second = (state[1] as number) + share * (first - (state[1] as number));
        state[0] = first;
        state[1] = second;
        powers[band] = (powers[band] as number) + (second - below) ** 2;
        below = second;
      }
      powers[BANDS - 1] = (powers[BANDS - 1] as number) + ((x[i] as number) - below) ** 2;
    }
  };
};

/** One hit being measured. */
interface Onset {
  readonly hop: number;
  /** Its power at its highest so far. */
  loudest: number;
  readonly clippedBefore: number;
  first: FirstWave | null;
  isDouble: boolean;
}

/**
 * Finds hits in a live pair: where the level of a millisecond or two rises over the noise and over what rings on. Each
 * is measured over 150 ms, so it is said 150 ms after its onset.
 * @param sampleRate samples a second
 */
export const hitFinder = (sampleRate: Hertz): HitFinder => {
  const length = Math.round(sampleRate * HOP);
  const rows: Sides<Float64Array> = [PLAIN_LOOPS.numbers(length), PLAIN_LOOPS.numbers(length)];
  const scans = [newScan(), newScan()] as const;
  const scan = scanner(PLAIN_LOOPS);
  const squares = PLAIN_LOOPS.numbers(4);
  const splits = rows.map(() => splitter(sampleRate));
  const inBands = new Float64Array(BANDS);
  const newColumn = () => new Float64Array(KEPT);
  /** Of each hop the power of left and right, their product, and the power of both in each band. */
  const kept = {
    left: newColumn(),
    right: newColumn(),
    both: newColumn(),
    bands: Array.from({ length: BANDS }, newColumn),
  };
  const waves = firstWaves(sampleRate, length);
  let noise = LEAST_NOISE;
  let filled = 0;
  let hops = 0;
  /** What the last hit may leave ringing. */
  let ringing = 0;
  let onset: Onset | null = null;
  /** First hop at which a hit may begin. */
  let free = FIRST;

  /** Mean of a column over the hops [from, to). */
  const mean = (column: Float64Array, from: number, to: number): number => {
    let sum = 0;
    for (let hop = from; hop < to; hop += 1) sum += column[hop % KEPT] as number;
    return sum / (to - from);
  };
  /** Power in a band over the last hops. */
  const short = (band: number, hop: number): number =>
    mean(kept.bands[band] as Float64Array, hop + 1 - SHORT, hop + 1);
  const recent = (band: number, hop: number): number => {
    let most = 0;
    for (let back = RECENT_FROM; back <= RECENT_TO; back += 1) most = Math.max(most, short(band, hop - back));
    return most;
  };
  /** Whether some band rises over what is recent, to no less than `least`. */
  const rises = (hop: number, least: number): boolean => {
    for (let band = 0; band < BANDS; band += 1) {
      const now = short(band, hop);
      if (now > least && now > RISE * recent(band, hop)) return true;
    }
    return false;
  };
  const loudness = (hop: number): number => {
    let sum = 0;
    for (let band = 0; band < BANDS; band += 1) sum += short(band, hop);
    return sum;
  };
  const begins = (hop: number): boolean => {
    const now = loudness(hop);
    return (
      now > Math.max(OVER_NOISE * noise, ringing) &&
      rises(hop, Math.max(OVER_NOISE * noise, FIRST_LEAST * now))
    );
  };
  const isSecond = (hop: number, { loudest }: Onset): boolean =>
    rises(hop, Math.max(OVER_NOISE * noise, SECOND_LEAST * loudest));
  const clipped = (): number => scans[0].clipped + scans[1].clipped;

  const measured = ({ hop: begin, first: wave, loudest }: Onset, end: number): MeasuredHit => {
    const first = begin - BEFORE_ONSET;
    const quiet = (column: Float64Array): number =>
      mean(column, first - NOISE_GAP - NOISE_HOPS, first - NOISE_GAP);
    const power = (column: Float64Array) => {
      const under = quiet(column);
      const above = mean(column, first, end) - under;
      // What is no more than the noise itself is not told from it.
      return { under, above: above > under ? above : 0 };
    };
    const [left, right] = [power(kept.left), power(kept.right)];
    const both = mean(kept.both, first, end) - quiet(kept.both);
    const silent = left.above === 0 ? "left" : right.above === 0 ? "right" : null;
    const share = ({ under, above }: typeof left): number => (UNSTEADY * under) / above;
    return {
      at: (begin * length) / sampleRate,
      levels: [levelOfPower(left.above), levelOfPower(right.above)],
      loudest: levelOfPower(loudest),
      noise: [levelOfPower(left.under), levelOfPower(right.under)],
      difference: levelDifference([Math.sqrt(left.above), Math.sqrt(right.above)]),
      error: silent ? Number.POSITIVE_INFINITY : (10 / Math.LN10) * Math.hypot(share(left), share(right)),
      correlation: silent ? null : Math.max(-1, Math.min(1, both / Math.sqrt(left.above * right.above))),
      silentSide: silent,
      first: wave,
    };
  };

  const followNoise = (hop: number): void => {
    const now = loudness(hop);
    const next = now < noise || hop < FIRST ? noise + FOLLOWS * (now - noise) : Math.min(now, noise * RISES);
    noise = Math.max(LEAST_NOISE, next);
  };

  const closed = (of: Onset, end: number): FoundHit | null => {
    const at = (of.hop * length) / sampleRate;
    if (clipped() > of.clippedBefore) return { kind: "refused", at, why: "clipped" };
    if (of.isDouble) return { kind: "refused", at, why: "double" };
    const hit = measured(of, end);
    const silent = hit.levels[0] === Number.NEGATIVE_INFINITY && hit.levels[1] === Number.NEGATIVE_INFINITY;
    return silent ? null : { kind: "hit", hit };
  };

  /** Takes the hop that lies in the rows. */
  const takeHop = (found: FoundHit[]): void => {
    const hop = hops;
    ringing *= RINGING_FALLS;
    const before = clipped();
    rows.forEach((row, side) => {
      scan(scans[side as 0 | 1], row, 0, length);
    });
    PLAIN_LOOPS.square(squares, rows[0], rows[1], rows[0], rows[1], 0, length);
    const place = hop % KEPT;
    kept.left[place] = (squares[0] as number) / length;
    kept.both[place] = (squares[1] as number) / length;
    kept.right[place] = (squares[3] as number) / length;
    inBands.fill(0);
    rows.forEach((row, side) => {
      splits[side]?.(inBands, row, 0, length);
    });
    inBands.forEach((sum, band) => {
      (kept.bands[band] as Float64Array)[place] = sum / length;
    });
    waves.take(hop, rows);
    hops += 1;

    if (onset) {
      const since = hop - onset.hop;
      if (since === FIRST_WAVE_DONE) onset.first = waves.of(onset.hop);
      if (since >= SECOND_FROM && isSecond(hop, onset)) onset.isDouble = true;
      onset.loudest = Math.max(onset.loudest, loudness(hop));
      if (since < WINDOW) return;
      const said = closed(onset, hop);
      if (said) found.push(said);
      ringing = RINGS * onset.loudest;
      onset = null;
      free = hop + RECENT_TO;
    } else if (hop >= free && begins(hop)) {
      onset = { hop, loudest: loudness(hop), clippedBefore: before, first: null, isDouble: false };
    } else if (hop >= SHORT) {
      followNoise(hop);
    }
  };

  return {
    take: (left, right) => {
      const found: FoundHit[] = [];
      for (let from = 0; from < left.length; ) {
        const count = Math.min(left.length - from, length - filled);
        rows[0].set(left.subarray(from, from + count), filled);
        rows[1].set(right.subarray(from, from + count), filled);
        filled += count;
        from += count;
        if (filled < length) continue;
        filled = 0;
        takeHop(found);
      }
      return found;
    },
  };
};
