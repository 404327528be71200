/*
 * Pan at which the legs of each law differ by so many dB. Computed from the laws' formulae, four digits.
 */

/** No published text: computed from its formulae. */
export const SOURCE = null;

/** Level difference, dB; pan by the laws linear, sine, root, mean45, cosine2. */
export const DIFFERENCE_POSITIONS: readonly (readonly [
  difference: number,
  linear: number,
  sine: number,
  root: number,
  mean45: number,
  cosine2: number,
])[] = [
  [6, 0.3323, 0.4085, 0.5985, 0.3671, 0.2156],
  [10, 0.5195, 0.61, 0.8182, 0.5628, 0.3478],
  [12, 0.5985, 0.6867, 0.8813, 0.6417, 0.4085],
  [15, 0.698, 0.7759, 0.9387, 0.7374, 0.4919],
  [18, 0.7764, 0.8405, 0.9688, 0.8096, 0.5659],
  [20, 0.8182, 0.8731, 0.9802, 0.847, 0.61],
  [24, 0.8813, 0.9198, 0.9921, 0.9019, 0.6867],
  [30, 0.9387, 0.9598, 0.998, 0.9502, 0.7759],
];
