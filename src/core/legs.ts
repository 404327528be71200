import type { Source, Sum } from "./setup";
import type { Side } from "./units";

/** The legs that a sum has; a mono sum has its left one only. */
export const legsOf = (sum: Pick<Sum, "stereo">): readonly Side[] =>
  sum.stereo ? ["left", "right"] : ["left"];

/** The channels of a source as its slots take them: "both" where there is one only, which goes to both sides. */
export const channelsOf = (source: Pick<Source, "channels">): readonly (Side | "both")[] =>
  source.channels === 1 ? ["both"] : ["left", "right"];
