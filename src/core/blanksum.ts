import type { Sum } from "./setup";

/** An empty sum: no trims, legs as they are named. */
export const BLANK_SUM: Omit<Sum, "id" | "name" | "stereo"> = {
  sends: [],
  trim: 0,
  legTrim: [0, 0],
  legInverted: [false, false],
  unevenLegs: false,
  reversed: false,
  folded: false,
  padDb: 0,
};
