import type { ChannelRule } from "./setup";

/** A rule that is one value of a few: each but who must hear it. */
export type RuleOfValue = Exclude<keyof ChannelRule, "reach">;
type Values<K extends RuleOfValue> = readonly NonNullable<ChannelRule[K]>[];

/** What each of them can be, most demanding first. */
export const RULE_VALUES: { readonly [K in RuleOfValue]: Values<K> } = {
  own: ["must", "prefer", "if-left", "no-matter", "no"],
  stereo: ["must", "prefer", "no"],
  shares: ["nobody", "family", "anyone"],
  mayLeaveOut: [false, true],
  tap: ["pre-hpf", "pre-eq", "pre-fader", "post-fader"],
  send: ["pre-fader", "post-fader"],
};
