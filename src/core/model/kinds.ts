import { isolated } from "../lib/direction";
import { keysOf } from "../lib/keys";
import type { Answer, ChannelKind, Listener, ListenerKind, Piece, PieceKind } from "./setup";

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

/** What can be said of a hit, in the order of the buttons and of every list of chances. */
export const ANSWERS = keysOf<Answer>({
  left: true,
  middle: true,
  right: true,
  nothing: true,
  unclear: true,
});

/** What a kind of listener is. */
interface ListenerTraits {
  /** What such a listener is, in words. */
  readonly name: string;
  /** What comes to the ears: the monitor inputs, or what the audience gets. */
  readonly hears: "monitor inputs" | "FOH";
  /** Where it looks: with the throne, at the stage, or as is set. */
  readonly faces: "throne" | "stage" | "as set";
  /** Every setup has one, who cannot be removed. */
  readonly isFixed: boolean;
}

/** What each kind of listener is. */
export const LISTENER_KINDS = {
  drummer: { name: "drummer", hears: "monitor inputs", faces: "throne", isFixed: true },
  performer: { name: "performer", hears: "monitor inputs", faces: "as set", isFixed: false },
  audience: { name: "audience", hears: "FOH", faces: "stage", isFixed: true },
} as const satisfies { readonly [kind in ListenerKind]: ListenerTraits };

/** A kind of which every setup has one. */
export type FixedKind = {
  [kind in ListenerKind]: (typeof LISTENER_KINDS)[kind]["isFixed"] extends true ? kind : never;
}[ListenerKind];

/** Whether somebody hears what the audience gets, and no monitor input. */
export const hearsFoh = ({ kind }: Pick<Listener, "kind">): boolean => LISTENER_KINDS[kind].hears === "FOH";

/** Whether somebody sits at the kit and turns with it. */
export const sitsAtKit = ({ kind }: Pick<Listener, "kind">): boolean =>
  LISTENER_KINDS[kind].faces === "throne";

/** Whether it is said of somebody which way they face. */
export const facesAsSet = ({ kind }: Pick<Listener, "kind">): boolean =>
  LISTENER_KINDS[kind].faces === "as set";

/** Whether a setup can be without this listener, or have more of the kind. */
export const isFurther = ({ kind }: Pick<Listener, "kind">): boolean => !LISTENER_KINDS[kind].isFixed;

/** Name of a piece, for a sentence or a list: what it is where it has none. */
export const kitPieceName = (piece: Pick<Piece, "name" | "kind">): string =>
  isolated(piece.name) || PIECE_KINDS[piece.kind];

/** Whether somebody has to strike it: no microphone over the whole kit, and somebody said what sounds it. */
export const isStruck = (piece: Piece | undefined): piece is Piece =>
  piece !== undefined && piece.limbs.length > 0 && !piece.limbs.includes("whole");
