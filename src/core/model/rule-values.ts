import type { ChannelRule } from "./setup";

/** What the user can ask of each channel but who must hear it, most demanding first. */
export const RULE_VALUES = {
  own: ["must", "prefer", "if-left", "no-matter", "no"],
  stereo: ["must", "prefer", "no"],
  shares: ["nobody", "family", "anyone"],
  mayLeaveOut: [false, true],
  tap: ["pre-hpf", "pre-eq", "pre-fader", "post-fader"],
  send: ["pre-fader", "post-fader"],
} as const satisfies {
  readonly [key in Exclude<keyof ChannelRule, "reach">]-?: readonly NonNullable<ChannelRule[key]>[];
};
