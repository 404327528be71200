import { keysOf } from "../lib/keys";
import type { ChannelKind, PieceKind } from "../model/setup";
import type { AllocationRule } from "./model";

/** Channels that make sense on one knob. `fold-back` is what everybody needs and nobody mixes. */
export type FamilyId =
  | "drums"
  | "bass"
  | "guitars"
  | "keys"
  | "horns"
  | "strings"
  | "others"
  | "vocals"
  | "playback"
  | "click"
  | "fold-back";

/** What a channel is, as far as the allocation asks: kick and snare are told from the rest of the kit. */
export type AllocationKind = ChannelKind | Extract<PieceKind, "kick" | "snare">;

/** What a kind asks for, and why. */
export interface KindRule {
  readonly family: FamilyId;
  /** Its own part of the family; null where it lies in the family itself. */
  readonly section: string | null;
  /** Whether whoever plays it comes before the others: singers need their own voice first. */
  readonly playerFirst: boolean;
  /** Whether those who keep time must hear it though it is not for everybody: drummers, and whoever leads. */
  readonly forTimekeepers: boolean;
  readonly rule: AllocationRule;
  readonly why: string;
}

const RULE: AllocationRule = {
  own: "prefer",
  stereo: "no",
  panned: false,
  shares: "anyone",
  reach: "all",
  mayLeaveOut: false,
  maySwap: false,
  send: "pre-fader",
};

const kind = (
  family: FamilyId,
  rule: Partial<AllocationRule>,
  why: string,
  more: Partial<Pick<KindRule, "section" | "playerFirst" | "forTimekeepers">> = {},
): KindRule => ({
  family,
  section: null,
  playerFirst: false,
  forTimekeepers: false,
  ...more,
  rule: { ...RULE, ...rule },
  why,
});

/** Every microphone of the kit follows the channel pan and the FOH balance. */
const DRUM = { stereo: "prefer", panned: true, send: "post-fader" } as const;
const FOLDED_BACK = { own: "no" } as const;

/**
 * What a kind of channel asks for by default; its order is the conventional order on the inputs, the fold-back last.
 * Common practice, no source; shown and edited, never a fact.
 */
export const KIND_RULES: { readonly [kind in AllocationKind]: KindRule } = {
  kick: kind(
    "drums",
    { ...DRUM, own: "if-left", stereo: "no" },
    "Everybody keeps time by it: an input of its own if one is left.",
  ),
  snare: kind("drums", { ...DRUM, own: "if-left", stereo: "no" }, "An input of its own if one is left."),
  drum: kind("drums", { ...DRUM, own: "no" }, "Nobody needs eight knobs for the drum microphones."),
  percussion: kind(
    "drums",
    { ...DRUM, own: "no-matter", panned: false },
    "One player with many instruments: one knob is enough, and the drum bus will do.",
    { section: "percussion" },
  ),
  bass: kind("bass", { own: "must" }, "Everybody takes pitch and time from it."),
  guitar: kind("guitars", { stereo: "prefer" }, "One player, one sound."),
  keys: kind("keys", { stereo: "prefer" }, "One player, often two keyboards."),
  horn: kind("horns", { own: "no-matter" }, "One or two knobs are enough for a section."),
  strings: kind("strings", { own: "no-matter" }, "One or two knobs are enough for a section."),
  other: kind("others", {}, "Not known what it is, so it gets an input of its own where possible."),
  "lead-vocal": kind("vocals", { own: "must" }, "Singers want their own voice with EQ and compressor.", {
    playerFirst: true,
  }),
  vocal: kind("vocals", {}, "Their own voice first; the rest can share a knob.", { playerFirst: true }),
  playback: kind("playback", { stereo: "prefer", send: "post-fader" }, "FOH’s fader rides are part of it."),
  click: kind("click", { own: "must", shares: "nobody", reach: "asked" }, "Only for those who ask for it.", {
    forTimekeepers: true,
  }),
  talkback: kind("fold-back", {}, "Must be heard whatever FOH does."),
  speech: kind("fold-back", FOLDED_BACK, "Everybody needs it, nobody mixes it."),
  video: kind(
    "fold-back",
    { ...FOLDED_BACK, send: "post-fader" },
    "Everybody needs it, nobody mixes it; FOH’s fader rides are part of it.",
  ),
  audience: kind(
    "fold-back",
    { ...FOLDED_BACK, reach: "asked", mayLeaveOut: true },
    "Opens up the mix in the ears, but nobody plays to it.",
  ),
  effects: kind(
    "fold-back",
    { ...FOLDED_BACK, reach: "asked", mayLeaveOut: true },
    "Pleasant, but nobody plays to it.",
  ),
};

/** The kinds in the conventional order on the inputs. */
export const KINDS_IN_ORDER = keysOf(KIND_RULES);
