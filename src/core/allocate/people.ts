import { type InputName, readName } from "../inputs/names";
import { hearsFoh, sitsAtKit } from "../model/kinds";
import type { Channel, ChannelRule, Id, Listener, Setup } from "../model/setup";
import { type AllocationKind, KIND_RULES } from "./rules";

/** A channel with its name taken apart. */
export interface NamedChannel {
  readonly channel: Channel;
  readonly name: InputName;
}

/** A listener's name taken apart: "Tobi, lead vox" is Tobi and what he plays. */
interface NamedListener {
  readonly id: Id;
  readonly isDrummer: boolean;
  /** Words of the person's name; none where the name says a part only ("Keys"). */
  readonly who: readonly string[];
  readonly plays: InputName;
}

const namedListener = (listener: Listener): NamedListener => {
  const { id, name } = listener;
  const [who = "", ...part] = name.split(",");
  const plays = readName(part.length > 0 ? part.join(" ") : name);
  const person = readName(who);
  const isPerson = part.length > 0 || person.kind === "other";
  return { id, isDrummer: sitsAtKit(listener), who: isPerson ? person.words : [], plays };
};

/** Listeners with a mixer of their own: all but the audience. */
export const musiciansOf = ({ listeners }: Pick<Setup, "listeners">): Listener[] =>
  listeners.filter((listener) => !hearsFoh(listener));

/** How whoever leads is named. Common practice, no source. */
const LEADS = /\b(md|m\.d|musical director|music director|conductor|band ?leader|leader)\b/i;

/** Listeners who keep time: drummers, and whoever leads by name. */
const timekeepersOf = (setup: Pick<Setup, "listeners">): Id[] =>
  musiciansOf(setup).flatMap((l) => (sitsAtKit(l) || LEADS.test(l.name) ? [l.id] : []));

/** Who must hear a channel by its kind: every musician, whoever keeps time, or only those who ask for it. */
export const reachByKind = (
  setup: Pick<Setup, "listeners">,
  kind: AllocationKind,
): NonNullable<ChannelRule["reach"]> => {
  const { rule, forTimekeepers } = KIND_RULES[kind];
  if (rule.reach === "all") return "all";
  return forTimekeepers ? timekeepersOf(setup) : [];
};

const only = <T>(list: readonly T[]): T | null => (list.length === 1 ? (list[0] ?? null) : null);

const isNamed = ({ name, channel }: NamedChannel, { who, plays }: NamedListener): boolean =>
  who.some((word) => name.words.includes(word)) ||
  (plays.kind === channel.kind && plays.numbers.length > 0 && plays.numbers.join() === name.numbers.join());

/**
 * Who plays or sings each channel, as far as names tell: the drummer the kit; else whoever the channel is named after,
 * else the only one who plays such a thing. One singer has one voice, so of several alike none is anybody's.
 */
export const playersOf = (
  setup: Pick<Setup, "listeners">,
  channels: readonly NamedChannel[],
): ReadonlyMap<Id, Id> => {
  const listeners = musiciansOf(setup).map(namedListener);
  const playerOf = (named: NamedChannel): NamedListener | null => {
    const { kind } = named.channel;
    if (kind === "drum") return only(listeners.filter((l) => l.isDrummer));
    const byName = listeners.filter((l) => isNamed(named, l));
    if (byName.length > 0) return only(byName);
    const alike = channels.filter((other) => other.channel.kind === kind);
    const isOneOfMany = KIND_RULES[kind].playerFirst && alike.length > 1;
    return isOneOfMany ? null : only(listeners.filter((l) => l.plays.kind === kind && kind !== "other"));
  };
  return new Map(
    channels.flatMap((named) => {
      const player = playerOf(named);
      return player ? [[named.channel.id, player.id] as const] : [];
    }),
  );
};
