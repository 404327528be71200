import type { Bus } from "./setup";

/** An empty bus: no trims, sides as they are named. */
export const BLANK_BUS: Omit<Bus, "id" | "name" | "stereo"> = {
  sends: [],
  trim: 0,
  sideTrim: [0, 0],
  sideInverted: [false, false],
  unevenSides: false,
  swapped: false,
  folded: false,
  padDb: 0,
};
