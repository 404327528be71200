import type { Id, StereoWish } from "../model/setup";
import { type AllocationChannel, type AllocationProblem, type AllocationRule, busId } from "./model";
import { type FamilyId, KIND_RULES, KINDS_IN_ORDER } from "./rules";

/** A channel with its rule, ready to be placed. */
export interface AllocationItem {
  readonly channel: AllocationChannel;
  readonly rule: AllocationRule;
  readonly family: FamilyId;
  readonly section: string | null;
  /** What its sides are worth where it is heard in mono. */
  readonly stereo: StereoWish;
  /** Musicians who must hear it. */
  readonly hearers: readonly Id[];
  /** How often it is unheard when it is left out: also once where nobody is named but it may not be left out. */
  readonly unheard: number;
  /** Whether it is alone on its inputs now. */
  readonly aloneNow: boolean;
  /** Place in the conventional order from its end, 1 for the last: what stands early yields late. */
  readonly priority: number;
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const FAMILIES = [...new Set(KINDS_IN_ORDER.map((kind) => KIND_RULES[kind].family))];

/** The rule in force: the kind's, with what the user changed. A click shares with nobody, whatever is said. */
export const ruleOf = ({ kind, rule }: AllocationChannel): AllocationRule => ({
  ...KIND_RULES[kind].rule,
  ...rule,
  ...(kind === "click" ? ({ shares: "nobody" } as const) : {}),
});

/** The section a channel lies in; null where it lies in its family directly. */
export const sectionOf = ({ kind, section }: AllocationChannel): string | null =>
  section || KIND_RULES[kind].section;

/** What a channel's sides are worth. Without anybody who hears in stereo: nothing. */
const stereoOf = (
  problem: AllocationProblem,
  channel: AllocationChannel,
  rule: AllocationRule,
): StereoWish => {
  const heardInMono = problem.musicians.length > 0 && problem.musicians.every((m) => m.mono);
  if (heardInMono) return "no";
  if (channel.keepsSides) return "must";
  return channel.width === 2 || rule.panned ? rule.stereo : "no";
};

/** Channels in the conventional order, whatever the order they were entered in. */
const inOrder = (channels: readonly AllocationChannel[]): AllocationChannel[] => {
  const rank = (c: AllocationChannel) => KINDS_IN_ORDER.indexOf(c.kind);
  const compare = (a: AllocationChannel, b: AllocationChannel): number =>
    rank(a) - rank(b) ||
    (a.number ?? Number.MAX_VALUE) - (b.number ?? Number.MAX_VALUE) ||
    compareText(a.name, b.name) ||
    compareText(a.id, b.id);
  const sorted = [...channels].sort(compare);
  /** A section stays together, at the place of its first. */
  const first = new Map<string, number>();
  sorted.forEach((c, i) => {
    const key = busId(KIND_RULES[c.kind].family, sectionOf(c));
    if (!first.has(key)) first.set(key, i);
  });
  const place = (c: AllocationChannel) => first.get(busId(KIND_RULES[c.kind].family, sectionOf(c))) ?? 0;
  const family = (c: AllocationChannel) => FAMILIES.indexOf(KIND_RULES[c.kind].family);
  return sorted
    .map((c, i) => ({ c, i }))
    .sort((a, b) => family(a.c) - family(b.c) || place(a.c) - place(b.c) || a.i - b.i)
    .map(({ c }) => c);
};

/** The channels as items, in the conventional order. */
export const itemsOf = (problem: AllocationProblem): AllocationItem[] => {
  const users = new Map<number, number>();
  for (const { currentInputs } of problem.channels)
    for (const input of new Set(currentInputs)) users.set(input, (users.get(input) ?? 0) + 1);
  return inOrder(problem.channels).map((channel, i, all) => {
    const rule = ruleOf(channel);
    const everyone = rule.reach === "all" ? problem.musicians.map((m) => m.id) : [];
    const hearers = [...new Set([...everyone, ...channel.wantedBy])].sort(compareText);
    return {
      channel,
      rule,
      family: KIND_RULES[channel.kind].family,
      section: sectionOf(channel),
      stereo: stereoOf(problem, channel, rule),
      hearers,
      unheard: Math.max(hearers.length, rule.mayLeaveOut ? 0 : 1),
      aloneNow: channel.currentInputs.length > 0 && channel.currentInputs.every((n) => users.get(n) === 1),
      priority: all.length - i,
    };
  });
};
