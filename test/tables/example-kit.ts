import type { LawId } from "../../src/core/model/setup";

/*
 * Sums of an invented kit of eight sources, computed at 40 digits from the formulae of the laws, four digits printed:
 * sum of all peaks and power sum of each leg, and sum of all peaks of the mono fold L + R. Sides at 0 dB.
 * The power sum takes the same figures as levels. Mirroring swaps left and right and leaves the fold.
 */

/** No published text: computed from its formulae. */
export const SOURCE = null;

/** House pan; level and peak, dBFS. */
export const EXAMPLE_KIT: readonly (readonly [name: string, pan: number, peak: number])[] = [
  ["kick", 0, -6],
  ["snare", 0, -8],
  ["hat", -0.7, -18],
  ["tom 1", -0.3, -10],
  ["tom 2", 0.3, -10],
  ["floor tom", 0.7, -9],
  ["overhead left", -1, -14],
  ["overhead right", 1, -14],
];

/** Law; peak sum left and right, power sum left and right, peak sum of the mono fold, dBFS. */
export const EXAMPLE_SUMS: readonly (readonly [
  law: LawId,
  peakLeft: number,
  peakRight: number,
  powerLeft: number,
  powerRight: number,
  peakMono: number,
])[] = [
  ["linear", 1.0279, 2.184, -6.7569, -5.4054, 7.6458],
  ["sine", 3.3789, 4.3216, -4.3593, -3.3297, 9.8837],
  ["root", 3.6992, 4.3672, -4.2365, -3.4291, 10.0602],
  ["mean45", 2.1831, 3.2335, -5.5929, -4.4013, 8.7448],
  ["cosine2", 0.8576, 2.3304, -6.6338, -5.0151, 7.6458],
];

/** How many equal uncorrelated sources; what their level and at most their peak gain over one, dB: 10 lg N, 20 lg N. */
export const EQUAL_SOURCES: readonly (readonly [n: number, level: number, peak: number])[] = [
  [1, 0, 0],
  [2, 3.0103, 6.0206],
  [3, 4.7712, 9.5424],
  [4, 6.0206, 12.0412],
  [5, 6.9897, 13.9794],
  [6, 7.7815, 15.563],
  [7, 8.451, 16.902],
  [8, 9.0309, 18.0618],
  [16, 12.0412, 24.0824],
  [32, 15.0515, 30.103],
];
