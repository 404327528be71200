import type { Db, Degrees, Seconds } from "../model/units";
import { gainOf, levelOf, levelOfPower, powerOf } from "./decibels";

/**
 * Level of any number of signals together: 10 lg ΣΣ ρij·10^((Li+Lj)/20).
 * −∞ is neutral; none at all is −∞.
 * @param correlation ρ of each two in the order of the levels, row by row; read above the diagonal only,
 * one that is missing counts as 0
 * @returns −∞ also where the correlations contradict each other and no power would be left
 */
export const correlatedLevelOf = (levels: readonly Db[], correlation: readonly (readonly number[])[]): Db => {
  let power = 0;
  levels.forEach((level, i) => {
    const gain = gainOf(level);
    power += gain * gain;
    for (let j = i + 1; j < levels.length; j += 1) {
      power += 2 * (correlation[i]?.[j] ?? 0) * gain * gainOf(levels[j] as Db);
    }
  });
  return levelOfPower(Math.max(0, power));
};

/**
 * What two equal tones with a phase between them gain over one of them: 20 lg |2 cos(φ/2)|.
 * Exactly −∞ in antiphase. A checked formula: no figure uses it.
 */
export const phaseSum = (phase: Degrees): Db => {
  const short = 180 - Math.abs(phase % 360);
  return levelOf(2 * Math.sin((short * Math.PI) / 360));
};

/**
 * Level without the background: 10 lg(10^(Lt/10) − 10^(Lb/10)), for signals with nothing in common.
 * A checked formula: no figure uses it.
 * @returns −∞ where the background is all there is; null where it is above the total, which cannot be
 */
export const withoutBackground = (total: Db, background: Db): Db | null => {
  if (background > total) return null;
  if (background === total) return Number.NEGATIVE_INFINITY;
  // expm1 keeps the digits where the two are nearly equal.
  return total + levelOfPower(-Math.expm1(((background - total) * Math.LN10) / 10));
};

/** A stretch of time with one level. */
export interface Segment {
  readonly seconds: Seconds;
  readonly level: Db;
}

/**
 * Time-average level Leq: 10 lg((1/T)·Σ ti·10^(Li/10)). A checked formula: no figure uses it.
 * @returns −∞ when there is no time at all
 */
export const timeAverage = (segments: readonly Segment[]): Db => {
  let time = 0;
  let exposure = 0;
  for (const { seconds, level } of segments) {
    time += seconds;
    exposure += seconds * powerOf(level);
  }
  return time === 0 ? Number.NEGATIVE_INFINITY : levelOfPower(exposure / time);
};

/** Sound exposure level LE of a time-average level: Leq + 10 lg(T/1 s). A checked formula: no figure uses it. */
export const exposureLevel = (average: Db, seconds: Seconds): Db => average + levelOfPower(seconds);
