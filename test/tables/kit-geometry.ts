/*
 * Typical places of a right-handed kit and what follows from them. Places: common practice, no source.
 * Azimuths: atan2(x, y), printed to 0.1°. Turned throne: house-right coordinate X = −x·cos ψ + y·sin ψ,
 * computed at 40 digits from that formula, printed to 0.0001 m.
 */

/** No published text: computed from its formulae. */
export const SOURCE = null;

/** Piece, metres to the drummer's right and front, azimuth to the right right-handed and left-handed, degrees. */
export const PLACES = [
  ["kick", 0.0, 0.75, 0.0, 0.0],
  ["snare", -0.1, 0.35, -15.9, 15.9],
  ["hi-hat", -0.5, 0.3, -59.0, 59.0],
  ["rack tom 1", -0.17, 0.65, -14.7, 14.7],
  ["rack tom 2", 0.2, 0.65, 17.1, -17.1],
  ["floor tom", 0.5, 0.25, 63.4, -63.4],
  ["ride", 0.55, 0.6, 42.5, -42.5],
  ["crash 1", -0.45, 0.75, -31.0, 31.0],
  ["crash 2", 0.55, 0.85, 32.9, -32.9],
  ["china", 0.85, 0.55, 57.1, -57.1],
] as const;

/** Turn of the throne ψ, degrees; X of the hi-hat at (−0.50, 0.30) and of the floor tom at (0.50, 0.25), metres. */
export const TURNED = [
  [0, 0.5, -0.5],
  [30, 0.583, -0.308],
  [45, 0.5657, -0.1768],
  [60, 0.5098, -0.0335],
  [90, 0.3, 0.25],
  [120, 0.0098, 0.4665],
  [135, -0.1414, 0.5303],
  [180, -0.5, 0.5],
  [-90, -0.3, -0.25],
] as const;
