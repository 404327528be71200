/*
 * OSHA, 29 CFR 1910.95, Table G-16: 90 dBA for 8 h, 5 dB exchange, and Table G-16a of appendix A.
 * The printed hours are rounded: G-16 to whole or half hours (6.06, 3.03 and 1.52 h print as 6, 3 and 1½),
 * G-16a to tenths.
 */

/** As it is named in About. */
export const SOURCE = "29 CFR 1910.95";

/** Table G-16. dBA; hours; largest rounding in the print, hours. */
export const OSHA_G16: readonly (readonly [level: number, hours: number, rounding: number])[] = [
  [90, 8, 0],
  [92, 6, 0.07],
  [95, 4, 0],
  [97, 3, 0.04],
  [100, 2, 0],
  [102, 1.5, 0.02],
  [105, 1, 0],
  [110, 0.5, 0],
  [115, 0.25, 0],
];

/** Table G-16a. dBA; hours, one digit. */
export const OSHA_G16A: readonly (readonly [level: number, hours: number])[] = [
  [80, 32],
  [81, 27.9],
  [82, 24.3],
  [83, 21.1],
  [84, 18.4],
  [85, 16],
  [86, 13.9],
];
