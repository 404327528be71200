import type { Bus, Channel, DirectOut, MonitorInput, Send } from "./setup";

/** A direct out as it begins: on, pre-fader, untouched. */
export const BLANK_DIRECT_OUT: DirectOut = { tap: "pre-fader", on: true, trim: 0 };

/** A channel as it begins: mono, centred, fader at 0 dB, nothing entered. */
export const BLANK_CHANNEL: Omit<Channel, "id" | "name"> = {
  numbers: [],
  kind: "other",
  piece: null,
  lines: 1,
  pan: 0,
  fader: 0,
  muted: false,
  inverted: false,
  gatedRms: null,
  activity: null,
  peak: null,
  keepSides: false,
  directOut: BLANK_DIRECT_OUT,
  colour: null,
  group: "",
  extra: [],
};

/** A send as it begins: on, at 0 dB, moving with the channel fader and its pan. */
export const BLANK_SEND: Omit<Send, "channel"> = { on: true, level: 0, tap: "post-fader", pan: null };

/** An empty bus: fader at 0 dB, no trims, sides as they are named. */
export const BLANK_BUS: Omit<Bus, "id" | "name" | "stereo"> = {
  numbers: [],
  sends: [],
  fader: 0,
  trim: 0,
  sideTrim: [0, 0],
  sideInverted: [false, false],
  unevenSides: false,
  swapped: false,
  folded: false,
  padDb: 0,
};

/** A monitor input as it begins: on, untouched, its port not entered. */
export const BLANK_INPUT: Omit<MonitorInput, "feed"> = { port: null, on: true, trim: 0 };
