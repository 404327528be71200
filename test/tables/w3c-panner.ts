// biome-ignore-all lint/suspicious/noApproximativeNumericConstant: values as they were computed elsewhere.
/*
 * W3C Web Audio API 1.1, section "StereoPannerNode Panning" (#stereopanner-algorithm), stereo input.
 * Computed from the algorithm at 40 digits, rounded to double.
 */

/** As it is named in About. */
export const SOURCE = "W3C Web Audio API 1.1";

/** Pan; gains of the left input into left and right, of the right input into left and right. */
export const W3C_STEREO_INPUT: readonly (readonly [
  pan: number,
  leftToLeft: number,
  leftToRight: number,
  rightToLeft: number,
  rightToRight: number,
])[] = [
  [-1, 1, 0, 1, 0],
  [-0.75, 1, 0, 0.9238795325112867, 0.3826834323650898],
  [-0.5, 1, 0, 0.7071067811865476, 0.7071067811865476],
  [-0.25, 1, 0, 0.3826834323650898, 0.9238795325112867],
  [0, 1, 0, 0, 1],
  [0.25, 0.9238795325112867, 0.3826834323650898, 0, 1],
  [0.5, 0.7071067811865476, 0.7071067811865476, 0, 1],
  [0.75, 0.3826834323650898, 0.9238795325112867, 0, 1],
  [1, 0, 1, 0, 1],
];

/** Pan; level of each leg with two inputs of the same level that have nothing in common, dB. */
export const W3C_UNCORRELATED: readonly (readonly [pan: number, left: number, right: number])[] = [
  [-1, 3.010299956639812, Number.NEGATIVE_INFINITY],
  [-0.75, 2.6800510016115475, -8.343206788338348],
  [-0.5, 1.7609125905568124, -3.010299956639812],
  [-0.25, 0.5935383422517558, -0.6876930815810871],
  [0, 0, 0],
  [0.25, -0.6876930815810871, 0.5935383422517558],
  [0.5, -3.010299956639812, 1.7609125905568124],
  [0.75, -8.343206788338348, 2.6800510016115475],
  [1, Number.NEGATIVE_INFINITY, 3.010299956639812],
];
