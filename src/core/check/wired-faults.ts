import type { Fault } from "./faults";
import { FOLDED, gains, SWAPPED, type Wiring } from "./wiring";

/** Faults of the bus outputs on their way to the monitor inputs. */
export const AT_BUS: readonly (readonly [Fault, Wiring])[] = [
  ["swapped", SWAPPED],
  ["left-only", gains(1, 0)],
  ["right-only", gains(0, 1)],
  [
    "left-in-both",
    [
      [1, 0],
      [1, 0],
    ],
  ],
  [
    "right-in-both",
    [
      [0, 1],
      [0, 1],
    ],
  ],
  ["inverted", gains(1, -1)],
  ["silent", gains(0, 0)],
];
/** Faults of the listener's own mixer. */
export const AT_MIXER: readonly (readonly [Fault, Wiring])[] = [
  ["flipped", SWAPPED],
  ["folded", FOLDED],
];
/** Faults behind the listener's own mixer. */
export const AT_EARS: readonly (readonly [Fault, Wiring])[] = [
  ["ears-swapped", SWAPPED],
  ["left-ear-dead", gains(0, 1)],
  ["right-ear-dead", gains(1, 0)],
];
