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

/** What a kind asks for. */
export interface KindRule {
  readonly family: FamilyId;
  /** Its own part of the family; null where it lies in the family itself. */
  readonly section: string | null;
  /** Whether whoever plays it comes before the others: singers need their own voice first. */
  readonly playerFirst: boolean;
  /** Whether those who keep time must hear it though it is not for everybody: drummers, and whoever leads. */
  readonly forTimekeepers: boolean;
  readonly rule: AllocationRule;
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
  more: Partial<Pick<KindRule, "section" | "playerFirst" | "forTimekeepers">> = {},
): KindRule => ({
  family,
  section: null,
  playerFirst: false,
  forTimekeepers: false,
  ...more,
  rule: { ...RULE, ...rule },
});

/** Every microphone of the kit follows the channel pan and the FOH balance. */
const DRUM = { stereo: "prefer", panned: true, send: "post-fader" } as const;
const FOLDED_BACK = { own: "no" } as const;

/**
 * What a kind of channel asks for by default; its order is the conventional order on the inputs, the fold-back last.
 * Common practice, no source; shown and edited, never a fact.
 */
export const KIND_RULES: { readonly [kind in AllocationKind]: KindRule } = {
  kick: kind("drums", { ...DRUM, own: "if-left", stereo: "no" }),
  snare: kind("drums", { ...DRUM, own: "if-left", stereo: "no" }),
  drum: kind("drums", { ...DRUM, own: "no" }),
  percussion: kind("drums", { ...DRUM, own: "no-matter", panned: false }, { section: "percussion" }),
  bass: kind("bass", { own: "must" }),
  guitar: kind("guitars", { stereo: "prefer" }),
  keys: kind("keys", { stereo: "prefer" }),
  horn: kind("horns", { own: "no-matter" }),
  strings: kind("strings", { own: "no-matter" }),
  other: kind("others", {}),
  "lead-vocal": kind("vocals", { own: "must" }, { playerFirst: true }),
  vocal: kind("vocals", {}, { playerFirst: true }),
  playback: kind("playback", { stereo: "prefer", send: "post-fader" }),
  click: kind("click", { own: "must", shares: "nobody", reach: "asked" }, { forTimekeepers: true }),
  talkback: kind("fold-back", {}),
  speech: kind("fold-back", FOLDED_BACK),
  video: kind("fold-back", { ...FOLDED_BACK, send: "post-fader" }),
  audience: kind("fold-back", { ...FOLDED_BACK, reach: "asked", mayLeaveOut: true }),
  effects: kind("fold-back", { ...FOLDED_BACK, reach: "asked", mayLeaveOut: true }),
};

/** The kinds in the conventional order on the inputs. */
export const KINDS_IN_ORDER = keysOf(KIND_RULES);
