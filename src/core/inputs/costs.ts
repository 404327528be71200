import type { ChannelKind } from "../model/setup";
import type { FreeReason } from "./move";

/**
 * What each way back under the count costs, in points: an order of what is missed least, no measure of anything.
 * Common practice, no source. Costs add up; every move costs something, so that none is made without need.
 */
export const COSTS = {
  free: {
    /** Nothing is lost: the same still comes in. */
    copy: 1,
    /** Nothing is heard of it now; it has to be patched again when it is wanted. */
    muted: 2,
    /** Nothing is heard of it now, but perhaps it was only forgotten. */
    off: 3,
    /** It is still heard in the bus, but can't be turned up alone. */
    twice: 4,
  } satisfies { readonly [why in FreeReason]: number },
  /** A channel to mono: what lies at the sides goes to the middle. */
  foldChannel: 10,
  /** On top, where the channel has to keep its sides. */
  keepSides: 6,
  /** A pair to mono: everybody who hears the bus loses all of its width… */
  foldPair: 10,
  /** …which is more, the more images collapse: for each. */
  foldImage: 3,
  /** A new bus takes a bus of the console and a new balance. */
  newSum: 4,
} as const;

/** What it costs that a kind of channel can't be mixed apart any longer. */
export interface Apart {
  /** In one bus with its like, points. */
  readonly like: number;
  /** In a sum of other things, points. */
  readonly strange: number;
  /** What may be summed with each other; null only by itself. */
  readonly family: string | null;
}

/** By kind: what everybody needs at a level of their own costs most. */
export const APART: { readonly [kind in ChannelKind]: Apart } = {
  // One kit, usually one balance.
  drum: { like: 3, strange: 24, family: "Drums" },
  percussion: { like: 4, strange: 22, family: "Drums" },
  // A section plays as one.
  horn: { like: 4, strange: 20, family: "Horns" },
  strings: { like: 4, strange: 20, family: "Strings" },
  other: { like: 6, strange: 20, family: "Others" },
  guitar: { like: 7, strange: 22, family: "Rhythm" },
  keys: { like: 7, strange: 22, family: "Rhythm" },
  // Voices sing together, but each singer wants more of their own.
  vocal: { like: 8, strange: 30, family: "Vocals" },
  "lead-vocal": { like: 14, strange: 34, family: "Vocals" },
  // Pitch and time for everybody.
  bass: { like: 10, strange: 26, family: "Rhythm" },
  // Cues: some want them loud, others not at all.
  playback: { like: 16, strange: 30, family: null },
  // In nobody’s ears who does not ask for it.
  click: { like: 40, strange: 60, family: null },
  // It has to be heard over everything.
  talkback: { like: 30, strange: 40, family: null },
  // Everybody needs them, nobody mixes them.
  speech: { like: 2, strange: 6, family: "Fold-back" },
  audience: { like: 2, strange: 6, family: "Fold-back" },
  video: { like: 2, strange: 6, family: "Fold-back" },
  effects: { like: 2, strange: 6, family: "Fold-back" },
};
