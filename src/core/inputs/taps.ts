import type { ChannelKind, TapPoint } from "../model/setup";
import type { Severity } from "./issue";

/** Why a tap point does not fit. */
export type MisfitCode =
  | "rumble"
  | "handling noise"
  | "unprocessed vocal"
  | "vocal without EQ"
  | "drum follows fader"
  | "vocal follows fader"
  | "instrument follows fader"
  | "playback follows fader"
  | "talkback follows fader"
  | "follows fader";

/** A tap point that does not fit. */
export interface Misfit {
  readonly severity: Severity;
  readonly why: MisfitCode;
}

/** What is to be said of the tap points for one kind of channel. */
export interface TapAdvice {
  /** Where to take it instead. */
  readonly better: TapPoint;
  /** The tap points that do not fit, with the reason; one that is not named fits. */
  readonly misfits: { readonly [tap in TapPoint]?: Misfit };
}

const warn = (why: MisfitCode): Misfit => ({ severity: "warn", why });
const note = (why: MisfitCode): Misfit => ({ severity: "note", why });

const RUMBLE = warn("rumble");
const RUMBLE_NOTE = note("handling noise");
const INSTRUMENT_RIDES = warn("instrument follows fader");

const INSTRUMENT: TapAdvice = {
  better: "pre-fader",
  misfits: { "pre-hpf": RUMBLE_NOTE, "post-fader": INSTRUMENT_RIDES },
};
const DRUM: TapAdvice = {
  better: "pre-fader",
  misfits: {
    "pre-hpf": RUMBLE,
    "post-fader": warn("drum follows fader"),
  },
};
const VOCAL: TapAdvice = {
  better: "pre-fader",
  misfits: {
    "pre-hpf": warn("unprocessed vocal"),
    "pre-eq": warn("vocal without EQ"),
    "post-fader": warn("vocal follows fader"),
  },
};
const PLAYED: TapAdvice = {
  better: "pre-fader",
  misfits: {
    "post-fader": warn("playback follows fader"),
  },
};
const TALK: TapAdvice = {
  better: "pre-eq",
  misfits: {
    "pre-hpf": RUMBLE_NOTE,
    "post-fader": warn("talkback follows fader"),
  },
};
const ANY: TapAdvice = {
  better: "pre-fader",
  misfits: { "post-fader": note("follows fader") },
};

/**
 * What fits which channel. Common practice, no source: before the filter brings rumble and bleed, after the fader
 * follows FOH; a line in (bass, keys, playback) has no rumble to filter.
 */
export const TAP_ADVICE: { readonly [kind in ChannelKind]: TapAdvice } = {
  drum: DRUM,
  percussion: DRUM,
  bass: { better: "pre-fader", misfits: { "post-fader": INSTRUMENT_RIDES } },
  guitar: INSTRUMENT,
  keys: { better: "pre-fader", misfits: { "post-fader": INSTRUMENT_RIDES } },
  horn: { better: "pre-fader", misfits: { "pre-hpf": RUMBLE, "post-fader": INSTRUMENT_RIDES } },
  strings: { better: "pre-fader", misfits: { "pre-hpf": RUMBLE, "post-fader": INSTRUMENT_RIDES } },
  "lead-vocal": VOCAL,
  vocal: VOCAL,
  playback: PLAYED,
  click: PLAYED,
  speech: VOCAL,
  talkback: TALK,
  audience: ANY,
  video: { better: "post-fader", misfits: {} },
  effects: ANY,
  other: ANY,
};

/** The tap point of a channel as it is where it fits its kind, else the better one. */
export const fittingTap = (kind: ChannelKind, tap: TapPoint): TapPoint =>
  TAP_ADVICE[kind].misfits[tap] ? TAP_ADVICE[kind].better : tap;
