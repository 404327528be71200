import type { PathChannel } from "../check/paths";
import { levelOfPower } from "../level/decibels";
import type { Piece } from "../model/setup";
import type { Db, Gain, Seconds } from "../model/units";
import { FIRST_WAVE } from "./first-wave";
import type { HeardState } from "./states";
import type { Microphones } from "./worlds";

/** What a hit of a drum brings to the phone in some worlds, at one level of the overheads; world by world. */
export interface HitPrediction {
  /** Power of each side as a share of both. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** Correlation of the sides, −1…1; 0 with a silent side. */
  readonly correlation: Float64Array;
  /** Fisher's z of the correlation. */
  readonly agreement: Float64Array;
  /** Of the first wave, power of each side as a share of both. */
  readonly firstLeft: Float64Array;
  readonly firstRight: Float64Array;
  /** Level of both sides together, dB; −∞ where nothing arrives. */
  readonly level: Float64Array;
}

/** Correlations nearer to 1 are alike: what noise and converters take away. */
const NEAREST = 0.98;

/** Fisher's z of a correlation. */
export const fisherOf = (correlation: number): number => Math.atanh(NEAREST * correlation);

/** Level of a hit at a channel where nobody has entered its peak, dBFS. A design choice: the typical figure of the templates. */
const USUAL_PEAK: Db = -12;

/** What each line of a channel has of a drum, in every world. */
interface Line {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  readonly after: Float64Array;
}

/** A wave begins with what comes first, unless it is so far below all that comes, as power: −25 dB. A design choice. */
const BEGINS = 10 ** -2.5;
/** What of a wave that comes later is in the first, as power: it rises, so its energy grows with a power of time. */
const inFirst = (later: Seconds, growth: number): number => (1 - later / FIRST_WAVE) ** growth;

/** What remains of two sides that cancel, as a share of what goes in, is the rounding of the arithmetic. */
const ROUNDING = 1e-12;

/**
 * Makes what predicts the hits of one drum.
 * @param count how many worlds
 */
export const predictor = (microphones: Microphones, piece: Piece, overheads: Db, count: number) => {
  const lines = new Map<string, Line>();
  const lineOf = ({ channel }: PathChannel, line: number): Line => {
    const key = `${line} ${channel.id}`;
    const known = lines.get(key);
    if (known) return known;
    const numbers = () => new Float64Array(count);
    const made: Line = { real: numbers(), imaginary: numbers(), after: numbers() };
    for (let world = 0; world < count; world += 1) {
      const { real, imaginary, after } = microphones.inWorld(piece, channel, line, overheads, world);
      made.real[world] = real;
      made.imaginary[world] = imaginary;
      made.after[world] = after;
    }
    lines.set(key, made);
    return made;
  };
  const coherence = Float64Array.from({ length: count }, (_, world) => microphones.coherence(piece, world));
  const growth = Float64Array.from({ length: count }, (_, world) => microphones.growth(piece, world));
  const usual = microphones.loudestOf(piece) ?? USUAL_PEAK;

  return ({ channels, wiring: [leftEar, rightEar] }: HeardState): HitPrediction => {
    const numbers = () => new Float64Array(count);
    // By each line alone, and by all of them in phase: power left and right, and their product.
    const alone = { left: numbers(), right: numbers(), both: numbers() };
    const sums = {
      leftReal: numbers(),
      leftImaginary: numbers(),
      rightReal: numbers(),
      rightImaginary: numbers(),
    };
    const rows: { readonly left: Gain; readonly right: Gain; readonly its: Line }[] = [];
    for (const path of channels)
      path.gains.forEach(([l, r], line) => {
        const left = leftEar[0] * l + leftEar[1] * r;
        const right = rightEar[0] * l + rightEar[1] * r;
        if (left === 0 && right === 0) return;
        const its = lineOf(path, line);
        const { real, imaginary } = its;
        rows.push({ left, right, its });
        for (let world = 0; world < count; world += 1) {
          const re = real[world] as number;
          const im = imaginary[world] as number;
          const power = re * re + im * im;
          alone.left[world] = (alone.left[world] as number) + left * left * power;
          alone.right[world] = (alone.right[world] as number) + right * right * power;
          alone.both[world] = (alone.both[world] as number) + left * right * power;
          sums.leftReal[world] = (sums.leftReal[world] as number) + left * re;
          sums.leftImaginary[world] = (sums.leftImaginary[world] as number) + left * im;
          sums.rightReal[world] = (sums.rightReal[world] as number) + right * re;
          sums.rightImaginary[world] = (sums.rightImaginary[world] as number) + right * im;
        }
      });
    const made: HitPrediction = {
      left: numbers(),
      right: numbers(),
      correlation: numbers(),
      agreement: numbers(),
      firstLeft: numbers(),
      firstRight: numbers(),
      level: numbers(),
    };
    for (let world = 0; world < count; world += 1) {
      const share = coherence[world] as number;
      const mixed = (apart: number, together: number): number => (1 - share) * apart + share * together;
      const [lr, li] = [sums.leftReal[world] as number, sums.leftImaginary[world] as number];
      const [rr, ri] = [sums.rightReal[world] as number, sums.rightImaginary[world] as number];
      const left = mixed(alone.left[world] as number, lr * lr + li * li);
      const right = mixed(alone.right[world] as number, rr * rr + ri * ri);
      const both = mixed(alone.both[world] as number, lr * rr + li * ri);
      const all = left + right;
      made.level[world] = usual + levelOfPower(all);
      if (all === 0) continue;
      made.left[world] = left / all;
      made.right[world] = right / all;
      const size = Math.sqrt(left * right);
      const limit = BEGINS * ((alone.left[world] as number) + (alone.right[world] as number));
      let begins = Number.POSITIVE_INFINITY;
      for (const { left: l, right: r, its } of rows) {
        const power = (its.real[world] as number) ** 2 + (its.imaginary[world] as number) ** 2;
        if ((l * l + r * r) * power >= limit) begins = Math.min(begins, its.after[world] as number);
      }
      let [firstLeft, firstRight] = [0, 0];
      for (const { left: l, right: r, its } of rows) {
        const later = Math.max(0, (its.after[world] as number) - begins);
        if (later >= FIRST_WAVE) continue;
        const power = (its.real[world] as number) ** 2 + (its.imaginary[world] as number) ** 2;
        const share = inFirst(later, growth[world] as number) * power;
        firstLeft += share * l * l;
        firstRight += share * r * r;
      }
      made.firstLeft[world] = firstLeft / (firstLeft + firstRight);
      made.firstRight[world] = firstRight / (firstLeft + firstRight);
      made.correlation[world] = size > ROUNDING * all ? Math.max(-1, Math.min(1, both / size)) : 0;
      made.agreement[world] = fisherOf(made.correlation[world] as number);
    }
    return made;
  };
};
