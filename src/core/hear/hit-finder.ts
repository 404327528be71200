import { levelOfPower } from "../level/decibels";
import { PLAIN_LOOPS } from "../measure/plain-loops";
import { newScan, scanner } from "../measure/scan";
import type { Hertz, Seconds, Sides } from "../model/units";
import { levelDifference } from "../stereo/position";
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
const SHORT = 2;
/** What is louder than the loudest short level from so many to so many hops ago begins anew: longer than half a wave of the lowest drum. */
const RECENT_FROM = 3;
const RECENT_TO = 14;
/** A hit rises by so much over what is recent, and over the noise, as power: 6 and 12 dB; in its treble by 8. Design choices. */
const RISE = 10 ** 0.6;
const OVER_NOISE = 10 ** 1.2;
const TREBLE_RISE = 10 ** 0.8;
/** A second hit is looked for from so many hops after the onset: sooner, a stick is still on its way. */
const SECOND_FROM = 14;
/** A rise in the treble is a second hit only if it comes so near to the treble of the first, as power: −20 dB. */
const SECOND_LEAST = 10 ** -2;

/** Noise never counts as less than this (−90 dBFS), so that digital silence is not all noise. */
const LEAST_NOISE = 10 ** -9;
/** The noise follows a quieter hop by this share, and rises by so much a hop (6 dB a second). */
const FOLLOWS = 0.05;
const RISES = 10 ** (0.6 * HOP);
/** How much of the noise before a hit may have changed until its end, as a share of its power. A design choice. */
const UNSTEADY = 0.3;

/** What is kept of each hop: power of left and right, their product, power of the treble. */
const COLUMNS = ["left", "right", "both", "treble"] as const;
type Column = (typeof COLUMNS)[number];

/** Σ of the squared differences of neighbours. x[from − 1] must exist. */
const trebleOf = (x: Float64Array, from: number, to: number): number => {
  let sum = 0;
  for (let i = from; i < to; i += 1) sum += ((x[i] as number) - (x[i - 1] as number)) ** 2;
  return sum;
};

/** One hit being measured. */
interface Onset {
  readonly hop: number;
  /** Power of its treble at its highest so far. */
  treble: number;
  clippedBefore: number;
  isDouble: boolean;
}

/**
 * Finds hits in a live pair: where the level of a millisecond or two rises over the noise and over what rings on. Each
 * is measured over 150 ms, so it is said 150 ms after its onset.
 * @param sampleRate samples a second
 */
export const hitFinder = (sampleRate: Hertz): HitFinder => {
  const length = Math.round(sampleRate * HOP);
  const rows: Sides<Float64Array> = [PLAIN_LOOPS.numbers(1 + length), PLAIN_LOOPS.numbers(1 + length)];
  const scans = [newScan(), newScan()] as const;
  const scan = scanner(PLAIN_LOOPS);
  const squares = PLAIN_LOOPS.numbers(4);
  const kept = Object.fromEntries(COLUMNS.map((name) => [name, new Float64Array(KEPT)])) as {
    readonly [name in Column]: Float64Array;
  };
  let filled = 0;
  let hops = 0;
  let noise = LEAST_NOISE;
  let trebleNoise = LEAST_NOISE;
  let onset: Onset | null = null;
  /** First hop at which a hit may begin. */
  let free = FIRST;

  /** Mean of a column over the hops [from, to). */
  const mean = (column: Column, from: number, to: number): number => {
    let sum = 0;
    for (let hop = from; hop < to; hop += 1) sum += kept[column][hop % KEPT] as number;
    return sum / (to - from);
  };
  const loudness = (hop: number): number =>
    mean("left", hop + 1 - SHORT, hop + 1) + mean("right", hop + 1 - SHORT, hop + 1);
  const treble = (hop: number): number => mean("treble", hop + 1 - SHORT, hop + 1);
  const recent = (of: (hop: number) => number, hop: number): number => {
    let most = 0;
    for (let back = RECENT_FROM; back <= RECENT_TO; back += 1) most = Math.max(most, of(hop - back));
    return most;
  };
  const risesInTreble = (hop: number): boolean =>
    treble(hop) > TREBLE_RISE * recent(treble, hop) && treble(hop) > OVER_NOISE * trebleNoise;
  const rises = (hop: number): boolean => {
    const now = loudness(hop);
    if (now <= OVER_NOISE * noise) return false;
    return now > RISE * recent(loudness, hop) || risesInTreble(hop);
  };
  const clipped = (): number => scans[0].clipped + scans[1].clipped;

  const measured = (begin: number, end: number): MeasuredHit => {
    const first = begin - BEFORE_ONSET;
    const quiet = (column: Column): number => mean(column, first - NOISE_GAP - NOISE_HOPS, first - NOISE_GAP);
    const power = (column: "left" | "right") => {
      const under = quiet(column);
      const above = mean(column, first, end) - under;
      // What is no more than the noise itself is not told from it.
      return { under, above: above > under ? above : 0 };
    };
    const [left, right] = [power("left"), power("right")];
    const both = mean("both", first, end) - quiet("both");
    const silent = left.above === 0 ? "left" : right.above === 0 ? "right" : null;
    const share = ({ under, above }: typeof left): number => (UNSTEADY * under) / above;
    return {
      at: (begin * length) / sampleRate,
      levels: [levelOfPower(left.above), levelOfPower(right.above)],
      noise: [levelOfPower(left.under), levelOfPower(right.under)],
      difference: levelDifference([Math.sqrt(left.above), Math.sqrt(right.above)]),
      error: silent ? Number.POSITIVE_INFINITY : (10 / Math.LN10) * Math.hypot(share(left), share(right)),
      correlation: silent ? null : Math.max(-1, Math.min(1, both / Math.sqrt(left.above * right.above))),
      silentSide: silent,
    };
  };

  const followNoise = (hop: number): void => {
    const follow = (was: number, now: number): number =>
      Math.max(
        LEAST_NOISE,
        now < was || hop < FIRST ? was + FOLLOWS * (now - was) : Math.min(now, was * RISES),
      );
    noise = follow(noise, loudness(hop));
    trebleNoise = follow(trebleNoise, treble(hop));
  };

  const closed = (of: Onset, end: number): FoundHit | null => {
    const at = (of.hop * length) / sampleRate;
    if (clipped() > of.clippedBefore) return { kind: "refused", at, why: "clipped" };
    if (of.isDouble) return { kind: "refused", at, why: "double" };
    const hit = measured(of.hop, end);
    const silent = hit.levels[0] === Number.NEGATIVE_INFINITY && hit.levels[1] === Number.NEGATIVE_INFINITY;
    return silent ? null : { kind: "hit", hit };
  };

  /** Takes the hop that lies in the rows. */
  const takeHop = (found: FoundHit[]): void => {
    const hop = hops;
    const before = clipped();
    rows.forEach((row, side) => {
      scan(scans[side as 0 | 1], row, 1, 1 + length);
    });
    PLAIN_LOOPS.square(squares, rows[0], rows[1], rows[0], rows[1], 1, 1 + length);
    const place = hop % KEPT;
    kept.left[place] = (squares[0] as number) / length;
    kept.both[place] = (squares[1] as number) / length;
    kept.right[place] = (squares[3] as number) / length;
    kept.treble[place] = rows.reduce((sum, row) => sum + trebleOf(row, 1, 1 + length), 0) / length;
    for (const row of rows) row[0] = row[length] as number;
    hops += 1;

    if (onset) {
      const since = hop - onset.hop;
      if (since >= SECOND_FROM && risesInTreble(hop) && treble(hop) > SECOND_LEAST * onset.treble)
        onset.isDouble = true;
      onset.treble = Math.max(onset.treble, treble(hop));
      if (since < WINDOW) return;
      const said = closed(onset, hop);
      if (said) found.push(said);
      onset = null;
      free = hop + RECENT_TO;
    } else if (hop >= free && rises(hop)) {
      onset = { hop, treble: treble(hop), clippedBefore: before, isDouble: false };
    } else if (hop >= SHORT) {
      followNoise(hop);
    }
  };

  return {
    take: (left, right) => {
      const found: FoundHit[] = [];
      for (let from = 0; from < left.length; ) {
        const count = Math.min(left.length - from, length - filled);
        rows[0].set(left.subarray(from, from + count), 1 + filled);
        rows[1].set(right.subarray(from, from + count), 1 + filled);
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
