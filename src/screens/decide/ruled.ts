import { defaultRule } from "../../core/allocate/default-rule";
import type { AllocationProblem } from "../../core/allocate/model";
import { type AllocationKind, KIND_RULES, KINDS_IN_ORDER } from "../../core/allocate/rules";
import type { Channel, ChannelRule, Id, Setup } from "../../core/model/setup";

/** A channel with what its kind asks for. */
export interface Ruled {
  readonly channel: Channel;
  readonly kind: AllocationKind;
  readonly byKind: Required<ChannelRule>;
}

/** The channels of a setup, in their order there. */
export const ruledOf = (setup: Setup, { channels }: Pick<AllocationProblem, "channels">): Ruled[] =>
  setup.channels.flatMap((channel) => {
    const kind = channels.find(({ id }) => id === channel.id)?.kind;
    return kind ? [{ channel, kind, byKind: defaultRule(setup, channel, kind) }] : [];
  });

/** Whose rules are shown, as a key of a list: all, those that are ticked, a kind, or one channel. */
export type Chosen = "all" | "ticked" | `kind ${AllocationKind}` | `channel ${Id}`;

/** The kinds of which there is more than one channel, with how many, in the order of the inputs. */
export const sharedKinds = (all: readonly Ruled[]): { kind: AllocationKind; count: number }[] =>
  KINDS_IN_ORDER.map((kind) => ({ kind, count: all.filter((r) => r.kind === kind).length })).filter(
    ({ count }) => count > 1,
  );

/** The channels that a key stands for; none where it is of a channel or a kind that is gone. */
export const chosenOf = (all: readonly Ruled[], chosen: Chosen, ticked: readonly Id[]): readonly Ruled[] => {
  if (chosen === "all") return all;
  if (chosen === "ticked") return all.filter(({ channel }) => ticked.includes(channel.id));
  return all.filter(({ channel, kind }) => chosen === `channel ${channel.id}` || chosen === `kind ${kind}`);
};

/** Whether a rule can make a difference: a click shares with nobody, and one line in the centre has no stereo. */
export const concerns = (key: keyof ChannelRule, { channel, kind }: Ruled): boolean => {
  if (key === "shares") return kind !== "click";
  if (key !== "stereo") return true;
  return !channel.keepSides && (channel.lines === 2 || KIND_RULES[kind].rule.panned);
};

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** What all of some are; null where they differ, or there are none. */
export const common = <T>(values: readonly T[]): { readonly value: T } | null => {
  const [value] = values;
  return value !== undefined && values.every((other) => same(other, value)) ? { value } : null;
};

/** What was changed of one rule of each channel: the same, the default of each, or not the same. */
export type Changed<K extends keyof ChannelRule> =
  | { readonly is: "changed"; readonly to: NonNullable<ChannelRule[K]> }
  | { readonly is: "default" }
  | { readonly is: "different" };

/** What was changed of one rule of some channels. */
export const changedOf = <K extends keyof ChannelRule>(some: readonly Ruled[], key: K): Changed<K> => {
  const values = some.map(({ channel }) => channel.rule?.[key]);
  if (values.every((value) => value === undefined)) return { is: "default" };
  const all = common(values);
  return all ? { is: "changed", to: all.value as NonNullable<ChannelRule[K]> } : { is: "different" };
};
