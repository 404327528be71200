/*
 * IEC 61672-1:2013, Electroacoustics – Sound level meters – Part 1.
 * Table 3 (frequency weightings, one digit), Table 4 (reference 4 kHz toneburst responses, one digit),
 * 5.8.2 and 5.8.3 (time weightings), Annex E (pole frequencies).
 */

/** As it is named in About. */
export const SOURCE = "IEC 61672-1:2013";

/** Number n of the band, exact frequency 1000·10^((n − 30)/10) Hz; weighting A, weighting C, dB. */
export const TABLE_3: readonly (readonly [band: number, a: number, c: number])[] = [
  [10, -70.4, -14.3],
  [11, -63.4, -11.2],
  [12, -56.7, -8.5],
  [13, -50.5, -6.2],
  [14, -44.7, -4.4],
  [15, -39.4, -3.0],
  [16, -34.6, -2.0],
  [17, -30.2, -1.3],
  [18, -26.2, -0.8],
  [19, -22.5, -0.5],
  [20, -19.1, -0.3],
  [21, -16.1, -0.2],
  [22, -13.4, -0.1],
  [23, -10.9, 0.0],
  [24, -8.6, 0.0],
  [25, -6.6, 0.0],
  [26, -4.8, 0.0],
  [27, -3.2, 0.0],
  [28, -1.9, 0.0],
  [29, -0.8, 0.0],
  [30, 0.0, 0.0],
  [31, 0.6, 0.0],
  [32, 1.0, -0.1],
  [33, 1.2, -0.2],
  [34, 1.3, -0.3],
  [35, 1.2, -0.5],
  [36, 1.0, -0.8],
  [37, 0.5, -1.3],
  [38, -0.1, -2.0],
  [39, -1.1, -3.0],
  [40, -2.5, -4.4],
  [41, -4.3, -6.2],
  [42, -6.6, -8.5],
  [43, -9.3, -11.2],
];

/** Toneburst, ms; LAFmax − LA, LAE − LA, LASmax − LA, dB; null where the table gives none. */
export const TABLE_4: readonly (readonly [
  milliseconds: number,
  fast: number,
  exposure: number,
  slow: number | null,
])[] = [
  [1000, 0.0, 0.0, -2.0],
  [500, -0.1, -3.0, -4.1],
  [200, -1.0, -7.0, -7.4],
  [100, -2.6, -10.0, -10.2],
  [50, -4.8, -13.0, -13.1],
  [20, -8.3, -17.0, -17.0],
  [10, -11.1, -20.0, -20.0],
  [5, -14.1, -23.0, -23.0],
  [2, -18.0, -27.0, -27.0],
  [1, -21.0, -30.0, null],
  [0.5, -24.0, -33.0, null],
  [0.25, -27.0, -36.0, null],
];

/** 5.8.2: decay after a steady tone stops, dB a second, one digit. */
export const DECAY = { fast: 34.7, slow: 4.3 } as const;

/** 5.8.3: largest difference of F and S on a steady 1 kHz tone, dB. */
export const FAST_AGAINST_SLOW = 0.1;

/** Annex E: f1…f4, Hz, as printed. */
export const POLES_PRINTED = ["20.60", "107.7", "737.9", "12194"] as const;
