import { type ChannelGains, energyLegs } from "../channels";
import type { Legs } from "../units";

/** How two legs reach two ears: for each ear, the gains of the left and the right leg in it. */
export type Wiring = readonly [leftEar: Legs, rightEar: Legs];

/** Each leg in its own ear. */
export const STRAIGHT: Wiring = [
  [1, 0],
  [0, 1],
];
/** Each leg in the other ear. */
export const SWAPPED: Wiring = [
  [0, 1],
  [1, 0],
];
/** Both legs in both ears. */
export const FOLDED: Wiring = [
  [1, 1],
  [1, 1],
];

/** Gains on the two legs themselves, nothing crossed. */
export const gains = (left: number, right: number): Wiring => [
  [left, 0],
  [0, right],
];

const ear = ([l, r]: Legs, [left, right]: Wiring): Legs => [
  l * left[0] + r * right[0],
  l * left[1] + r * right[1],
];

/** One wiring behind another, in the order the signal passes them. */
export const chain = (...wirings: readonly Wiring[]): Wiring =>
  wirings.reduce((first, next): Wiring => [ear(next[0], first), ear(next[1], first)], STRAIGHT);

/** What both ears get of one hit. */
export interface EarImage {
  /** Gains in the left and right ear, never negative. */
  readonly legs: Legs;
  /** The ears get it in opposite polarity. */
  readonly inverted: boolean;
}

/** What both ears get of signed gains at the legs; several channels count as uncorrelated. */
export const earImage = (channels: ChannelGains, [left, right]: Wiring): EarImage => {
  let product = 0;
  const ears = channels.map(([l, r]): Legs => {
    const both: Legs = [left[0] * l + left[1] * r, right[0] * l + right[1] * r];
    product += both[0] * both[1];
    return both;
  });
  return { legs: energyLegs(ears), inverted: product < 0 };
};
