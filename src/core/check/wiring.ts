import type { Sides } from "../model/units";
import type { ChannelGains } from "../pan/stereo";

/** How two sides reach two ears: for each ear, the gains of the left and the right side in it. */
export type Wiring = readonly [leftEar: Sides, rightEar: Sides];

/** Each side in its own ear. */
export const STRAIGHT: Wiring = [
  [1, 0],
  [0, 1],
];
/** Each side in the other ear. */
export const SWAPPED: Wiring = [
  [0, 1],
  [1, 0],
];
/** Both sides in both ears. */
export const FOLDED: Wiring = [
  [1, 1],
  [1, 1],
];

/** Gains on the two sides themselves, nothing crossed. */
export const gains = (left: number, right: number): Wiring => [
  [left, 0],
  [0, right],
];

const ear = ([l, r]: Sides, [left, right]: Wiring): Sides => [
  l * left[0] + r * right[0],
  l * left[1] + r * right[1],
];

/** One wiring behind another, in the order the signal passes them. */
export const chain = (...wirings: readonly Wiring[]): Wiring =>
  wirings.reduce((first, next): Wiring => [ear(next[0], first), ear(next[1], first)], STRAIGHT);

/**
 * The switches of one mixer, in the order the signal passes them. Mono is one switch: what is in mono already is not added
 * up again.
 */
export const mixer = (...switches: readonly Wiring[]): Wiring =>
  chain(...switches.filter((one, at) => one !== FOLDED || switches.indexOf(FOLDED) === at));

/** What both ears get of one hit. */
export interface EarImage {
  /** Gains in the left and right ear, never negative. */
  readonly sides: Sides;
  /** The ears get it in opposite polarity. */
  readonly inverted: boolean;
}

/** What both ears get of signed gains at the sides; several channels count as uncorrelated. */
export const earImage = (gains: ChannelGains, [left, right]: Wiring): EarImage => {
  // Spelt out: a check of many channels asks for hundreds of thousands.
  let [atLeft, atRight, product] = [0, 0, 0];
  for (const [l, r] of gains) {
    const inLeft = left[0] * l + left[1] * r;
    const inRight = right[0] * l + right[1] * r;
    atLeft += inLeft * inLeft;
    atRight += inRight * inRight;
    product += inLeft * inRight;
  }
  return { sides: [Math.sqrt(atLeft), Math.sqrt(atRight)], inverted: product < 0 };
};
