/*
 * Sound level of earphones from sensitivity, impedance and drive, computed from
 * L = S + 10 lg(P/1 mW), P = V²/Z, V = V0·Z/(Z + Z0), S(dB/V) = S(dB/mW) + 10 lg(1000/Z).
 * The row of 103.69 dB/mW is an example read in a text: 0.037 V at 32 Ω give 90 dB.
 */

/** No published text: computed from its formulae. */
export const SOURCE = null;

/** Impedance, Ω; dB/V over dB/mW, four digits. */
export const PER_VOLT: readonly (readonly [impedance: number, offset: number])[] = [
  [8, 20.9691],
  [10, 20],
  [16, 17.9588],
  [20, 16.9897],
  [24, 16.1979],
  [32, 14.9485],
  [40, 13.9794],
  [50, 13.0103],
  [64, 11.9382],
  [80, 10.9691],
  [100, 10],
  [150, 8.2391],
  [250, 6.0206],
  [300, 5.2288],
  [600, 2.2185],
];

/** dB/mW, Ω, V without load, source Ω; mW with five digits, dB with three. */
export const EARPHONES: readonly (readonly [
  sensitivity: number,
  impedance: number,
  drive: number,
  sourceImpedance: number,
  milliwatts: number,
  level: number,
])[] = [
  [100, 32, 1, 0, 31.25, 114.949],
  [110, 16, 0.1, 0, 0.625, 107.959],
  [110, 16, 0.1, 10, 0.23669, 103.742],
  [105, 32, 0.775, 0, 18.76953, 117.735],
  [119, 20, 0.05, 0, 0.125, 109.969],
  [91, 25, 1, 0, 40, 107.021],
  [103.69, 32, 0.037, 0, 0.04278, 90.003],
  // Printed as 2.50000 and 111.979 of the drive 0.2449 V: that is 0.24495 V cut short.
  [108, 24, Math.sqrt(0.06), 0, 2.5, 111.979],
];
