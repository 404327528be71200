/*
 * sin/cos raised to k = A/(10 lg 2), for a centre attenuation A: gL = cos(xπ/2)^k, gR = sin(xπ/2)^k, x = (pan + 1)/2.
 * Textbook formula, computed at 40 digits, rounded to double.
 */

/** No published text: computed from its formulae. */
export const SOURCE = null;

/** Centre attenuation, dB; pan, left gain, right gain. */
export const CENTRE_FAMILY: readonly (readonly [
  centreDb: number,
  pan: number,
  left: number,
  right: number,
])[] = [
  [3, -1, 1, 0],
  [3, -0.5, 0.9241298436318222, 0.38394322148407406],
  [3, 0, 0.7079457843841379, 0.7079457843841379],
  [3, 0.25, 0.5566886443836724, 0.8319948404103304],
  [3, 0.5, 0.38394322148407406, 0.9241298436318222],
  [3, 1, 0, 1],
  [4.5, -1, 1, 0],
  [4.5, -0.5, 0.8883814737297075, 0.23790332220274119],
  [4.5, 0, 0.5956621435290105, 0.5956621435290105],
  [4.5, 0.25, 0.4153541400475055, 0.758893703552117],
  [4.5, 0.5, 0.23790332220274119, 0.8883814737297075],
  [4.5, 1, 0, 1],
  [6, -1, 1, 0],
  [6, -0.5, 0.8540159678909761, 0.14741239732356876],
  [6, 0, 0.5011872336272722, 0.5011872336272722],
  [6, 0.25, 0.30990224678573086, 0.6922154144694111],
  [6, 0.5, 0.14741239732356876, 0.8540159678909761],
  [6, 1, 0, 1],
];

/** Centre attenuation, dB, and the exponent k, printed to five digits. */
export const EXPONENTS: readonly (readonly [centreDb: number, exponent: number])[] = [
  [2.5, 0.83048],
  [3.0, 0.99658],
  [4.0, 1.32877],
  [4.5, 1.49487],
  [6.0, 1.99316],
];
