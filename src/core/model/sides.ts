import type { Bus, Channel } from "./setup";
import type { Side } from "./units";

/** The sides that a bus has; a mono bus has its left one only. */
export const sidesOf = (bus: Pick<Bus, "stereo">): readonly Side[] =>
  bus.stereo ? ["left", "right"] : ["left"];

/** The channels of a channel as its inputs take them: "both" where there is one only, which goes to both sides. */
export const linesOf = (channel: Pick<Channel, "lines">): readonly (Side | "both")[] =>
  channel.lines === 1 ? ["both"] : ["left", "right"];
