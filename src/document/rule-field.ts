import { RULE_VALUES } from "../core/model/rule-values";
import type { ChannelRule, Id } from "../core/model/setup";
import { LIMITS } from "./limits";
import { fields, glimpse, list, oneOfOrAbsent, type Reader } from "./reader";

const flagOrAbsent: Reader<boolean | undefined> = (value, at, say) => {
  if (value === undefined || typeof value === "boolean") return value;
  say({ code: "left out", at, given: glimpse(value), allowed: "true or false" });
  return undefined;
};

const reachBy =
  (id: Reader<Id>): Reader<ChannelRule["reach"]> =>
  (value, at, say) =>
    value === undefined || value === "all" ? value : list(id, LIMITS.listeners)(value, at, say);

/** What the user changed of a channel's rule; nothing at all where nothing was changed. */
export const ruleField = (id: Reader<Id>): Reader<ChannelRule | undefined> => {
  const read = fields<ChannelRule>({
    own: oneOfOrAbsent(RULE_VALUES.own),
    stereo: oneOfOrAbsent(RULE_VALUES.stereo),
    shares: oneOfOrAbsent(RULE_VALUES.shares),
    reach: reachBy(id),
    mayLeaveOut: flagOrAbsent,
    tap: oneOfOrAbsent(RULE_VALUES.tap),
    send: oneOfOrAbsent(RULE_VALUES.send),
  });
  return (value, at, say) => {
    if (value === undefined) return undefined;
    const rule = read(value, at, say);
    return Object.keys(rule).length > 0 ? rule : undefined;
  };
};
