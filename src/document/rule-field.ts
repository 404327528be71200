import type { ChannelRule, Id, TapPoint } from "../core/model/setup";
import { LIMITS } from "./limits";
import { fields, list, oneOfOrAbsent, type Reader, show, words } from "./reader";

const TAPS = words<TapPoint>({ "pre-hpf": true, "pre-eq": true, "pre-fader": true, "post-fader": true });

const flagOrAbsent: Reader<boolean | undefined> = (value, at, say) => {
  if (value === undefined || typeof value === "boolean") return value;
  say(at, `${show(value)} is not true or false; left out`);
  return undefined;
};

const reachBy =
  (id: Reader<Id>): Reader<ChannelRule["reach"]> =>
  (value, at, say) =>
    value === undefined || value === "all" ? value : list(id, LIMITS.listeners)(value, at, say);

/** What the user changed of a channel's rule; nothing at all where nothing was changed. */
export const ruleField = (id: Reader<Id>): Reader<ChannelRule | undefined> => {
  const read = fields<ChannelRule>({
    own: oneOfOrAbsent(["must", "prefer", "if-left", "no-matter", "no"]),
    stereo: oneOfOrAbsent(["must", "prefer", "no"]),
    shares: oneOfOrAbsent(["nobody", "family", "anyone"]),
    reach: reachBy(id),
    mayLeaveOut: flagOrAbsent,
    tap: oneOfOrAbsent(TAPS),
    send: oneOfOrAbsent(["pre-fader", "post-fader"]),
  });
  return (value, at, say) => {
    if (value === undefined) return undefined;
    const rule = read(value, at, say);
    return Object.keys(rule).length > 0 ? rule : undefined;
  };
};
