import type { Db, Hertz } from "../model/units";
import { levelOfPower } from "./decibels";

/** Where both weightings are 0 dB. */
const REFERENCE: Hertz = 1000;
/** Where the C weighting is 3 dB down, Annex E. */
const LOW: Hertz = 10 ** 1.5;
const HIGH: Hertz = 10 ** 3.9;
/** High-pass corner of the A weighting, Annex E. */
const A_CORNER: Hertz = 10 ** 2.45;

/** The squares of f1 and f4: the two roots of x² + bx + c = 0 that put the −3 dB points where they belong. */
const cPoles = (): { readonly low: number; readonly high: number } => {
  const half = Math.SQRT1_2;
  const c = LOW ** 2 * HIGH ** 2;
  const b = (REFERENCE ** 2 + c / REFERENCE ** 2 - half * (LOW ** 2 + HIGH ** 2)) / (1 - half);
  const high = (-b + Math.sqrt(b * b - 4 * c)) / 2;
  // The product of the roots is c: dividing keeps the digits that the small root's difference would lose.
  return { low: c / high, high };
};

const poles = cPoles();

/**
 * The four pole frequencies f1…f4 of the weightings, Hz: 20.60, 107.7, 737.9 and 12194 to the printed digits.
 * IEC 61672-1:2013, Annex E.
 */
export const POLES: readonly [f1: Hertz, f2: Hertz, f3: Hertz, f4: Hertz] = [
  Math.sqrt(poles.low),
  ((3 - Math.sqrt(5)) / 2) * A_CORNER,
  ((3 + Math.sqrt(5)) / 2) * A_CORNER,
  Math.sqrt(poles.high),
];

/** Squares of f1…f4. */
const [P1, P2, P3, P4] = POLES.map((f) => f * f) as [number, number, number, number];

const cPower = (f: number): number => ((P4 * f * f) / ((f * f + P1) * (f * f + P4))) ** 2;
const aPower = (f: number): number => cPower(f) * (f ** 4 / ((f * f + P2) * (f * f + P3)));

/** Weighting A at a frequency, dB, 0 at 1 kHz; −∞ at 0 Hz. IEC 61672-1:2013, Annex E. */
export const weightingA = (frequency: Hertz): Db => levelOfPower(aPower(frequency) / aPower(REFERENCE));

/** Weighting C at a frequency, dB, 0 at 1 kHz; −∞ at 0 Hz. IEC 61672-1:2013, Annex E. */
export const weightingC = (frequency: Hertz): Db => levelOfPower(cPower(frequency) / cPower(REFERENCE));

/**
 * Exact base-ten frequency of a one-third-octave band: 1000·10^((n − 30)/10).
 * @param band whole number n: 10 is "10 Hz", 30 is 1 kHz, 43 is "20 kHz"
 */
export const bandFrequency = (band: number): Hertz => REFERENCE * 10 ** ((band - 30) / 10);
