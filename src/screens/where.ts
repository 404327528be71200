import { printNumber } from "../core/number";

/** A distance in words: "0.50 m left", "in the middle" words left to the caller. */
export const metres = (value: number, positive: string, negative: string): string =>
  `${printNumber(Math.abs(value), 2)} m ${value < 0 ? negative : positive}`;
