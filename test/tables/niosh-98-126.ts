/*
 * NIOSH publication 98-126 (1998), recommended exposure limit: 85 dBA for 8 h, 3 dB exchange,
 * T = 480 min / 2^((L − 85)/3). Rows 85 to 100 dBA in whole 3 dB as an agency text prints them;
 * the others from the formula, to the printed tenth of a second. One copy in circulation prints
 * 18 min 59 s at 99 dBA; the formula gives 18 min 53.9 s.
 */

/** As it is named in About. */
export const SOURCE = "NIOSH 98-126";

/** dBA; allowed time in seconds. */
export const NIOSH_TIMES: readonly (readonly [level: number, seconds: number])[] = [
  [85, 28800],
  [86, 22858.6],
  [87, 18142.9],
  [88, 14400],
  [89, 11429.3],
  [90, 9071.4],
  [91, 7200],
  [92, 5714.6],
  [93, 4535.7],
  [94, 3600],
  [95, 2857.3],
  [96, 2267.9],
  [97, 1800],
  [98, 1428.7],
  [99, 1133.9],
  [100, 900],
  [101, 714.3],
  [102, 567],
  [103, 450],
  [104, 357.2],
  [105, 283.5],
  [106, 225],
  [107, 178.6],
  [108, 141.7],
  [109, 112.5],
  [110, 89.3],
  [111, 70.9],
  [112, 56.3],
  [113, 44.6],
  [114, 35.4],
  [115, 28.1],
];
