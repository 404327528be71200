import type { Channel, ChannelRule, Id } from "../../core/model/setup";
import { alike, amend, mapped } from "../amend";
import { type Command, step } from "../command";
import { mend } from "../mend";

/** What to change of a rule; null takes a change back. */
export type RulePatch = { readonly [key in keyof ChannelRule]?: ChannelRule[key] | null };

const withRule = (channel: Channel, patch: RulePatch): Channel => {
  const all = Object.entries({ ...channel.rule, ...patch }).filter(([, value]) => value !== null);
  const { rule: before, ...rest } = channel;
  const rule = Object.fromEntries(all) as ChannelRule;
  if (alike(rule, before ?? {})) return channel;
  return all.length > 0 ? { ...rest, rule } : rest;
};

/** Changes the rules of channels, all as one step. */
export const editRules = (ids: readonly Id[], patch: RulePatch): Command =>
  step("change rules", (file) =>
    mend(
      amend(file, {
        channels: mapped(file.channels, (c) => (ids.includes(c.id) ? withRule(c, patch) : c)),
      }),
    ),
  );

/** Takes back whatever was changed of the rules of channels. */
export const resetRules = (ids: readonly Id[]): Command =>
  step("reset rules", (file) =>
    amend(file, {
      channels: mapped(file.channels, (c) => {
        const { rule, ...rest } = c;
        return rule && ids.includes(c.id) ? rest : c;
      }),
    }),
  );
