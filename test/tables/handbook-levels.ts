/*
 * Rounded tables for adding two levels, as printed for use without a calculator.
 */

/** As it is named in About. */
export const SOURCE = "A published acoustics training note";

/** A published acoustics training note: difference, dB; add to the higher level, one digit. */
export const ADD_TO_HIGHER: readonly (readonly [difference: number, add: number])[] = [
  [0, 3.0],
  [1, 2.5],
  [2, 2.1],
  [3, 1.8],
  [4, 1.5],
  [5, 1.2],
  [6, 1.0],
  [7, 0.8],
  [8, 0.6],
  [9, 0.5],
  [10, 0.4],
];

/** Hong Kong EPD, technical memorandum on noise: difference from, to, dB; add to the higher level, to the nearest half. */
export const ADD_COARSELY: readonly (readonly [from: number, to: number, add: number])[] = [
  [0, 0.5, 3.0],
  [1, 1.5, 2.5],
  [2, 3, 2.0],
  [3.5, 4.5, 1.5],
  [5, 7, 1.0],
  [7.5, 12, 0.5],
];

/** Sums printed to so many digits in training notes, a question-and-answer page and a handbook: levels; sum; digits. */
export const PRINTED_SUMS: readonly (readonly [levels: readonly number[], sum: number, digits: number])[] = [
  [[84, 79], 85.2, 1],
  [[62, 73], 73.3, 1],
  [[85, 87, 89], 92, 0],
];
