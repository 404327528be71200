import type { SourceKind, TapPoint } from "../setup";
import type { Severity } from "./flag";

/** Tap points as they are shown. */
export const TAP_NAMES: { readonly [tap in TapPoint]: string } = {
  "before-filter": "before filter",
  "before-eq": "before EQ",
  "before-fader": "before fader",
  "after-fader": "after fader",
};

/** Why a tap point does not fit. */
export interface Misfit {
  readonly severity: Severity;
  readonly why: string;
}

/** What is to be said of the tap points for one kind of source. */
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
  "an instrument after the fader: whenever the house rides or mutes it, the players lose it",
);

/**
 * What fits which source. Common practice, no source: before the filter brings rumble and bleed, after the fader
 * follows the house; a line in (bass, keys, playback) has no rumble to filter.
 */
export const TAP_ADVICE: { readonly [kind in SourceKind]: TapAdvice } = {
  drum: {
    better: "before-fader",
    misfits: {
      "before-filter": RUMBLE,
      "after-fader": warn(
        "a drum after the fader: whenever the house rides it down, the drummer loses it, in a sum or alone",
      ),
    },
  },
  voice: {
    better: "before-fader",
    misfits: {
      "before-filter": warn("a voice before its processing: rumble, no equaliser, no compressor"),
      "before-eq": warn("a voice before its processing: no equaliser, no compressor, loud notes jump out"),
      "after-fader": warn(
        "a voice after the fader: the house mix moves it in the singer’s ears, and a mute takes it away",
      ),
    },
  },
  bass: { better: "before-fader", misfits: { "after-fader": INSTRUMENT_RIDES } },
  guitar: {
    better: "before-fader",
    misfits: { "before-filter": RUMBLE_NOTE, "after-fader": INSTRUMENT_RIDES },
  },
  keys: { better: "before-fader", misfits: { "after-fader": INSTRUMENT_RIDES } },
  horn: { better: "before-fader", misfits: { "before-filter": RUMBLE, "after-fader": INSTRUMENT_RIDES } },
  playback: {
    better: "before-fader",
    misfits: {
      "after-fader": warn(
        "playback after the fader: when the house fades it out, the band loses its cue or click",
      ),
    },
  },
  talk: {
    better: "before-eq",
    misfits: {
      "before-filter": RUMBLE_NOTE,
      "after-fader": warn(
        "talk after the fader: it is not meant for the house, so its fader is down and nobody hears it",
      ),
    },
  },
  other: {
    better: "before-fader",
    misfits: { "after-fader": note("after the fader: it follows every move and mute of the house") },
  },
};
