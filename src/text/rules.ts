import type { AllocationKind } from "../core/allocate/rules";
import { keysOf } from "../core/lib/keys";
import { CHANNEL_KINDS, PIECE_KINDS } from "../core/model/kinds";
import type { ChannelRule, Listener, OwnWish, ShareWish, StereoWish } from "../core/model/setup";
import { listenerName } from "./names";
import { TAP_NAMES } from "./taps";
import { formatList } from "./words";

/** What a channel is, as the allocation tells kinds apart. */
export const ALLOCATION_KINDS: { readonly [kind in AllocationKind]: string } = {
  ...CHANNEL_KINDS,
  kick: PIECE_KINDS.kick,
  snare: PIECE_KINDS.snare,
};

/** Why a kind of channel asks for what it does by default: what `KIND_RULES` holds, in a sentence. Common practice, no source. */
export const KIND_REASONS: { readonly [kind in AllocationKind]: string } = {
  kick: "Everybody keeps time by it: an input of its own if one is left.",
  snare: "An input of its own if one is left.",
  drum: "Nobody needs eight knobs for the drum microphones.",
  percussion: "One player with many instruments: one knob is enough, and the drum bus will do.",
  bass: "Everybody takes pitch and time from it.",
  guitar: "One player, one sound.",
  keys: "One player, often two keyboards.",
  horn: "One or two knobs are enough for a section.",
  strings: "One or two knobs are enough for a section.",
  other: "Not known what it is, so it gets an input of its own where possible.",
  "lead-vocal": "Singers want their own voice with EQ and compressor.",
  vocal: "Their own voice first; the rest can share a knob.",
  playback: "FOH’s fader rides are part of it.",
  click: "Only for those who ask for it.",
  talkback: "Must be heard whatever FOH does.",
  speech: "Everybody needs it, nobody mixes it.",
  video: "Everybody needs it, nobody mixes it; FOH’s fader rides are part of it.",
  audience: "Opens up the mix in the ears, but nobody plays to it.",
  effects: "Pleasant, but nobody plays to it.",
};

/** How much a channel wants an input of its own. */
const OWN_WISHES: { readonly [wish in OwnWish]: string } = {
  must: "must",
  prefer: "prefer",
  "if-left": "if inputs are left",
  "no-matter": "doesn’t matter",
  no: "no",
};

/** How much a channel's stereo is worth. */
const STEREO_WISHES: { readonly [wish in StereoWish]: string } = {
  must: "must",
  prefer: "prefer",
  no: "no",
};

/** Whom a channel may share an input with. */
const SHARE_WISHES: { readonly [wish in ShareWish]: string } = {
  nobody: "nobody",
  family: "its own family",
  anyone: "its family, else fold-back",
};

/** Each rule of a channel, before its value. */
export const RULE_NAMES: { readonly [key in keyof ChannelRule]-?: string } = {
  own: "input of its own",
  stereo: "stereo",
  shares: "may share with",
  reach: "must reach",
  mayLeaveOut: "may be left out",
  tap: "direct out tap point",
  send: "send to a bus",
};

type Listeners = readonly Pick<Listener, "id" | "name">[];

const reachText = (who: NonNullable<ChannelRule["reach"]>, listeners: Listeners): string => {
  if (who === "all") return "everybody";
  const names = who.map((id) => listenerName(listeners.find((l) => l.id === id)));
  return formatList(names) || "nobody";
};

type Key = keyof ChannelRule;
type Say<K extends Key> = (value: NonNullable<ChannelRule[K]>, listeners: Listeners) => string;

const VALUES: { readonly [K in Key]: Say<K> } = {
  own: (wish) => OWN_WISHES[wish],
  stereo: (wish) => STEREO_WISHES[wish],
  shares: (wish) => SHARE_WISHES[wish],
  reach: reachText,
  mayLeaveOut: (may) => (may ? "yes" : "no"),
  tap: (tap) => TAP_NAMES[tap],
  send: (tap) => TAP_NAMES[tap],
};

/** One rule of a channel in words, without its name: "must", "everybody". */
export const formatRuleValue = <K extends Key>(
  key: K,
  value: NonNullable<ChannelRule[K]>,
  listeners: Listeners,
): string => VALUES[key](value, listeners);

/** What was changed of a channel's rule, in words. */
export const formatRule = (rule: ChannelRule | undefined, listeners: Listeners): string => {
  const said = <K extends Key>(key: K): string[] => {
    const value = rule?.[key];
    return value === undefined ? [] : [`${RULE_NAMES[key]}: ${formatRuleValue(key, value, listeners)}`];
  };
  return (
    keysOf(RULE_NAMES)
      .flatMap((key) => said(key))
      .join("; ") || "as its kind"
  );
};
