import { levelOfPower, powerOf } from "../level/decibels";
import type { Db } from "../model/units";
import type { FirstWave } from "./first-wave";
import type { MeasuredHit } from "./hit";
import { fisherOf, type HitPrediction } from "./prediction";

/** What of a hit tells where it came through. */
export interface Evidence {
  /** Share of each side, with what lies under it. */
  readonly difference: Db;
  readonly error: Db;
  /** Fisher's transformation of the correlation; null with a silent side. */
  readonly agreement: number | null;
  /** Of the first wave; null where there is none. */
  readonly first: Pick<Evidence, "difference" | "error" | "under"> | null;
  /** Highest level of both sides together, dBFS. */
  readonly level: Db;
  /** What lies under each side, as a share of the power of both. */
  readonly under: number;
}

/** Error of every level on the way that nobody has measured, dB: knobs and meters. */
const LEVEL_ERROR: Db = 0.3;
/** What the worlds leave out of a difference, dB. A design choice. */
const MODEL_ERROR: Db = 0.9;
/** What they leave out of an agreement. A design choice. */
export const AGREEMENT_ERROR = 0.4;
/** A side this far below both together is not told from silence: what crosses over in an interface. A design choice. */
const CROSSTALK = 10 ** (-45 / 10);
/** And one that is not this far above the noise. A design choice. */
const NOISE_SHARE = 0.7;
/** Chance that a hit follows nothing that is known: the wrong drum, a stick on the rim. A design choice. */
const ASTRAY = 0.00002;
/** And that only its first wave does: something else was touched before. A design choice. */
const FIRST_ASTRAY = 0.02;
/** Of such a hit, the density of any difference and any agreement: all of ±45 dB and ±2.3 alike. */
const ANY_DIFFERENCE = 1 / 90;
const ANY_AGREEMENT = 1 / 4.6;

/** What lies under each side in a calm room, as a share of the power of both. */
export const USUAL_UNDER = CROSSTALK;

/** Right over left of two shares with so much under each, dB: finite for a silent side. */
export const differenceOver = (left: number, right: number, under: number): Db =>
  levelOfPower((right + under) / (left + under));

/** Error of a difference without noise, dB. */
export const DIFFERENCE_ERROR: Db = Math.hypot(Math.SQRT2 * LEVEL_ERROR, MODEL_ERROR);

/** What is not in the picture of a first wave, dB. A design choice. */
const FIRST_MODEL_ERROR: Db = 0.4;
/** Error of the difference of a first wave without noise, dB. */
export const FIRST_ERROR: Db = Math.hypot(Math.SQRT2 * LEVEL_ERROR, FIRST_MODEL_ERROR);
/** A side of a first wave that is no more than this much of the noise is not told from it. */
const FIRST_NOISE_SHARE = 1;

const firstOf = ({ levels, under, error }: FirstWave): NonNullable<Evidence["first"]> => {
  const [left, right] = [powerOf(levels[0]), powerOf(levels[1])];
  const floor = Math.max(CROSSTALK, FIRST_NOISE_SHARE * under);
  return {
    difference: differenceOver(left / (left + right), right / (left + right), floor),
    error: Math.hypot(FIRST_ERROR, Number.isFinite(error) ? error : FIRST_ERROR),
    under: floor,
  };
};

/** What a measured hit tells. */
export const evidenceOf = ({ levels, loudest, noise, error, correlation, first }: MeasuredHit): Evidence => {
  const [left, right] = [powerOf(levels[0]), powerOf(levels[1])];
  const all = left + right;
  const under = Math.max(CROSSTALK, (NOISE_SHARE * Math.max(powerOf(noise[0]), powerOf(noise[1]))) / all);
  return {
    difference: differenceOver(left / all, right / all, under),
    error: Math.hypot(DIFFERENCE_ERROR, Number.isFinite(error) ? error : 0),
    agreement: correlation === null ? null : fisherOf(correlation),
    first: first && firstOf(first),
    level: loudest,
    under,
  };
};

/** What a hit would tell if the right side of the phone's input were so much softer against the left. */
export const offsetBy = (evidence: Evidence, offset: Db): Evidence => ({
  ...evidence,
  difference: evidence.difference - offset,
  first: evidence.first && { ...evidence.first, difference: evidence.first.difference - offset },
});

/** Density of Student's t with five degrees of freedom: as the normal one in the middle, with room for what is odd. */
const STUDENT = 8 / (3 * Math.PI * Math.sqrt(5));
const student = (off: number, scale: number): number => {
  const square = 1 + (off / scale) ** 2 / 5;
  return STUDENT / (scale * square * square * square);
};

/** Density of what was measured in each world, level apart. Multiplies into `weights`, world by world. */
export const weigh = (weights: Float64Array, prediction: HitPrediction, evidence: Evidence): void => {
  const { difference, error, agreement, first, under } = evidence;
  const any =
    ASTRAY * ANY_DIFFERENCE * (agreement === null ? 1 : ANY_AGREEMENT) * (first ? ANY_DIFFERENCE : 1);
  for (let world = 0; world < weights.length; world += 1) {
    const left = prediction.left[world] as number;
    const right = prediction.right[world] as number;
    let density = 0;
    if (left + right > 0) {
      density = student(difference - differenceOver(left, right, under), error);
      if (agreement !== null)
        density *= student(agreement - (prediction.agreement[world] as number), AGREEMENT_ERROR);
      if (first) {
        const [l, r] = [prediction.firstLeft[world] as number, prediction.firstRight[world] as number];
        const off = first.difference - differenceOver(l, r, first.under);
        density *= (1 - FIRST_ASTRAY) * student(off, first.error) + FIRST_ASTRAY * ANY_DIFFERENCE;
      }
    }
    weights[world] = (weights[world] as number) * ((1 - ASTRAY) * density + any);
  }
};

/** Density of a level that is off by so much. */
export const levelDensity = (off: Db, spread: Db): number => student(off, spread);
