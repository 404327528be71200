import type { ChannelKind } from "../model/setup";

/** What an input is, as the trade sorts inputs. */
export type InputKind = ChannelKind;

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
  "lead-vocal",
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
