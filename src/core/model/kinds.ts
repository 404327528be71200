import { isolated } from "../lib/direction";
import type { ChannelKind, Piece, PieceKind } from "./setup";

/** What a piece is, in words. */
export const PIECE_KINDS: { readonly [kind in PieceKind]: string } = {
  kick: "Kick",
  snare: "Snare",
  hat: "Hat",
  tom: "Tom",
  floor: "Floor tom",
  ride: "Ride",
  crash: "Crash",
  percussion: "Percussion",
  overhead: "Overhead",
  other: "Other",
};

/** What a channel picks up, in words. */
export const CHANNEL_KINDS: { readonly [kind in ChannelKind]: string } = {
  drum: "Drum",
  percussion: "Percussion",
  bass: "Bass",
  guitar: "Guitar",
  keys: "Keys",
  horn: "Horn",
  strings: "Strings",
  "lead-vocal": "Lead vox",
  vocal: "Vocal, BV",
  playback: "Playback",
  click: "Click",
  speech: "Speech",
  talkback: "Talkback",
  audience: "Audience mic",
  video: "Video",
  effects: "Effects return",
  other: "Other",
};

/** Name of a piece, for a sentence or a list: what it is where it has none. */
export const kitPieceName = (piece: Pick<Piece, "name" | "kind">): string =>
  isolated(piece.name) || PIECE_KINDS[piece.kind];

/** Whether somebody has to strike it: no microphone over the whole kit, and somebody said what sounds it. */
export const isStruck = (piece: Piece | undefined): piece is Piece =>
  piece !== undefined && piece.limbs.length > 0 && !piece.limbs.includes("whole");
