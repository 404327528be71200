import type { ChannelKind, TapPoint } from "../model/setup";
import type { Severity } from "./issue";

/** Tap points as they are shown. */
export const TAP_NAMES: { readonly [tap in TapPoint]: string } = {
  "pre-hpf": "pre-HPF",
  "pre-eq": "pre-EQ",
  "pre-fader": "pre-fader",
  "post-fader": "post-fader",
};

/** Why a tap point does not fit. */
export interface Misfit {
  readonly severity: Severity;
  readonly why: string;
}

/** What is to be said of the tap points for one kind of channel. */
export interface TapAdvice {
  /** Where to take it instead. */
  readonly better: TapPoint;
  /** The tap points that do not fit, with the reason; one that is not named fits. */
  readonly misfits: { readonly [tap in TapPoint]?: Misfit };
}

const warn = (why: string): Misfit => ({ severity: "warn", why });
const note = (why: string): Misfit => ({ severity: "note", why });

const RUMBLE = warn("no filter yet: rumble and the rest of the stage come along");
const RUMBLE_NOTE = note("no filter yet: rumble and handling noise come along");
const INSTRUMENT_RIDES = warn(
  "an instrument after the fader: whenever FOH rides or mutes it, the players lose it",
);

const INSTRUMENT: TapAdvice = {
  better: "pre-fader",
  misfits: { "pre-hpf": RUMBLE_NOTE, "post-fader": INSTRUMENT_RIDES },
};
const DRUM: TapAdvice = {
  better: "pre-fader",
  misfits: {
    "pre-hpf": RUMBLE,
    "post-fader": warn(
      "a drum after the fader: whenever FOH rides it down, the drummer loses it, in a bus or alone",
    ),
  },
};
const VOCAL: TapAdvice = {
  better: "pre-fader",
  misfits: {
    "pre-hpf": warn("a vocal before its processing: rumble, no equaliser, no compressor"),
    "pre-eq": warn("a vocal before its processing: no equaliser, no compressor, loud notes jump out"),
    "post-fader": warn(
      "a vocal after the fader: the FOH mix moves it in the singer’s ears, and a mute takes it away",
    ),
  },
};
const PLAYED: TapAdvice = {
  better: "pre-fader",
  misfits: {
    "post-fader": warn("playback after the fader: when FOH fades it out, the band loses its cue or click"),
  },
};
const TALK: TapAdvice = {
  better: "pre-eq",
  misfits: {
    "pre-hpf": RUMBLE_NOTE,
    "post-fader": warn(
      "talk after the fader: it is not meant for FOH, so its fader is down and nobody hears it",
    ),
  },
};
const ANY: TapAdvice = {
  better: "pre-fader",
  misfits: { "post-fader": note("after the fader: it follows every move and mute of FOH") },
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
