import type { ChannelKind } from "../model/setup";

/** What an input is, as the trade sorts inputs. */
export type InputKind =
  | "drum"
  | "percussion"
  | "bass"
  | "guitar"
  | "keys"
  | "horn"
  | "strings"
  | "vocal"
  | "speech"
  | "talkback"
  | "playback"
  | "click"
  | "video"
  | "audience"
  | "effects"
  | "other";

/** Which microphone of several at one instrument. */
export type MicrophoneRole = "in" | "out" | "sub" | "top" | "bottom" | "side" | "high" | "mid" | "low";

/** Kinds by how much they say when a name has words of several: "Gtr Vox" is a vocal, "Vox Verb" a return. */
export const KINDS_BY_WEIGHT: readonly InputKind[] = [
  "talkback",
  "click",
  "video",
  "effects",
  "playback",
  "speech",
  "vocal",
  "audience",
  "percussion",
  "drum",
  "horn",
  "bass",
  "guitar",
  "keys",
  "strings",
  "other",
];

/** What a setup knows of each kind, as long as it tells fewer of them apart. */
export const KIND_IN_SETUP: { readonly [kind in InputKind]: ChannelKind } = {
  drum: "drum",
  percussion: "drum",
  bass: "bass",
  guitar: "guitar",
  keys: "keys",
  horn: "horn",
  strings: "other",
  vocal: "vocal",
  speech: "vocal",
  talkback: "talkback",
  playback: "playback",
  click: "playback",
  video: "playback",
  audience: "other",
  effects: "other",
  other: "other",
};
