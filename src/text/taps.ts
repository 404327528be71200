import type { MisfitCode } from "../core/inputs/taps";
import type { TapPoint } from "../core/model/setup";

/** Tap points as they are shown. */
export const TAP_NAMES: { readonly [tap in TapPoint]: string } = {
  "pre-hpf": "pre-HPF",
  "pre-eq": "pre-EQ",
  "pre-fader": "pre-fader",
  "post-fader": "post-fader",
};

/** Why a tap point does not fit, behind a colon. */
export const MISFITS: { readonly [code in MisfitCode]: string } = {
  rumble: "no HPF, so rumble and bleed come along",
  "handling noise": "no HPF, so rumble and handling noise come along",
  "unprocessed vocal": "a vocal without HPF, EQ and compressor",
  "vocal without EQ": "a vocal without EQ and, on most desks, without compressor, so loud notes jump out",
  "drum follows fader": "when FOH pulls the fader, the drummer loses it, in a bus or alone",
  "vocal follows fader": "the FOH mix moves it in the singer’s ears, and a mute cuts it",
  "instrument follows fader": "when FOH pulls the fader or mutes it, the band loses it",
  "playback follows fader": "when FOH fades it out, the band loses its cue or click",
  "talkback follows fader": "talkback is not meant for FOH, so its fader is down and nobody hears it",
  "follows fader": "it follows every fader move and mute of FOH",
};
