import { fittingTap } from "../inputs/taps";
import type { Channel, ChannelRule, Setup } from "../model/setup";
import { reachByKind } from "./people";
import { type AllocationKind, KIND_RULES } from "./rules";

/** What a channel asks for where the user changed nothing: the same fields as the rule that they can change. */
export const defaultRule = (
  setup: Pick<Setup, "listeners">,
  { kind, directOut }: Pick<Channel, "kind" | "directOut">,
  as: AllocationKind,
): Required<ChannelRule> => {
  const { own, stereo, shares, mayLeaveOut, send } = KIND_RULES[as].rule;
  const tap = fittingTap(kind, directOut.tap);
  return { own, stereo, shares, reach: reachByKind(setup, as), mayLeaveOut, tap, send };
};
