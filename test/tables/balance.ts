// biome-ignore-all lint/suspicious/noApproximativeNumericConstant: values as they were computed elsewhere.
/*
 * Balance of a two-channel source. Common practice, no source; computed from the formulae:
 * the near leg stays at 0 dB, the far one gets 1 − |p| (linear) or sin((1 − |p|)·π/2) (sine).
 */

/** No published text: computed from its formulae. */
export const SOURCE = null;

/** Pan; left and right gain by the linear balance, left and right gain by the sine balance. */
export const BALANCE: readonly (readonly [
  pan: number,
  linearLeft: number,
  linearRight: number,
  sineLeft: number,
  sineRight: number,
])[] = [
  [-1, 1, 0, 1, 0],
  [-0.9, 1, 0.1, 1, 0.15643446504023087],
  [-0.8, 1, 0.2, 1, 0.3090169943749474],
  [-0.7, 1, 0.3, 1, 0.4539904997395468],
  [-0.6, 1, 0.4, 1, 0.5877852522924731],
  [-0.5, 1, 0.5, 1, 0.7071067811865476],
  [-0.4, 1, 0.6, 1, 0.8090169943749475],
  [-0.3, 1, 0.7, 1, 0.8910065241883679],
  [-0.2, 1, 0.8, 1, 0.9510565162951535],
  [-0.1, 1, 0.9, 1, 0.9876883405951378],
  [0, 1, 1, 1, 1],
  [0.1, 0.9, 1, 0.9876883405951378, 1],
  [0.2, 0.8, 1, 0.9510565162951535, 1],
  [0.3, 0.7, 1, 0.8910065241883679, 1],
  [0.4, 0.6, 1, 0.8090169943749475, 1],
  [0.5, 0.5, 1, 0.7071067811865476, 1],
  [0.6, 0.4, 1, 0.5877852522924731, 1],
  [0.7, 0.3, 1, 0.4539904997395468, 1],
  [0.8, 0.2, 1, 0.3090169943749474, 1],
  [0.9, 0.1, 1, 0.15643446504023087, 1],
  [1, 0, 1, 0, 1],
];
