import { MEASURED_RANGE } from "../core/measure/range";
import { HIGHEST_TRIM, LONGEST_EXTRA, LOWEST_SEND, LOWEST_TRIM } from "../core/model/limits";
import type { Setup } from "../core/model/setup";
import type { Excess } from "../text/excess";

/** Smallest and largest allowed, both included. */
export interface Range {
  readonly min: number;
  readonly max: number;
}

const range = (min: number, max: number): Range => ({ min, max });

/** What every number of a setup may be: the fields on screen and the check of a file read it from here. */
export const RANGES = {
  /** Level or peak of a channel, dBFS. */
  level: range(-120, 24),
  /** Level of a send, dB. */
  send: range(LOWEST_SEND, 40),
  /** Fader of a channel or a bus, dB. */
  fader: range(LOWEST_SEND, 20),
  /** Number of a channel, bus or output port, whole. */
  number: range(1, 999),
  /** Channels, buses and output ports of a desk, channels in one bank, whole. */
  channelCount: range(1, 512),
  busCount: range(1, 256),
  portCount: range(1, 512),
  bankSize: range(1, 64),
  /** A share of the whole. */
  share: range(0, 1),
  /** Trim on a bus, side or input, dB. */
  trim: range(LOWEST_TRIM, HIGHEST_TRIM),
  /** Pad between output and receiving input, dB. */
  pad: range(0, 60),
  /** Wanted headroom, dB. */
  margin: range(0, 40),
  /** Centre attenuation of a law of one's own, dB. */
  centre: range(0.5, 12),
  /** Smallest step of a level, dB. */
  levelStep: range(0.01, 3),
  /** Output at 0 dBFS, dBu. */
  output: range(-20, 36),
  /** Largest level of the receiving input, dBu. */
  input: range(-40, 36),
  /** Pan steps each side, whole. */
  panSteps: range(1, 1000),
  pan: range(-1, 1),
  /** Places, metres. */
  metres: range(-20, 20),
  /** Turns, degrees. */
  degrees: range(-180, 180),
  /** Inputs of a monitor system, whole. */
  inputCount: range(8, 64),
  /** Sensitivity of an earphone, dB/mW or dB/V. */
  sensitivity: range(60, 160),
  /** Impedance of an earphone, ohm. */
  impedance: range(1, 2000),
  /** Impedance of its amplifier, ohm. */
  sourceImpedance: range(0, 2000),
  /** Drive, volts rms. */
  drive: range(0, 20),
  /** Isolation of an earpiece, dB. */
  isolation: range(0, 60),
  /** Level on stage, dBA. */
  stage: range(0, 160),
  /** Level measured from a recording, dBFS. */
  measured: MEASURED_RANGE,
  /** Length of a recording, seconds. */
  seconds: range(0, 1e6),
  /** Correlation of two channels. */
  correlation: range(-1, 1),
} as const satisfies { readonly [name: string]: Range };

/** How much of everything one setup holds. What is over is refused, never cut. */
export const LIMITS = {
  channels: 512,
  pieces: 128,
  buses: 32,
  listeners: 32,
  inputs: 192,
  hits: 1000,
  /** Ticks of the desk list. */
  deskTicks: 20_000,
  /** Looks of a trace: more than there are links. */
  looks: 100,
  /** Further columns of an imported list, a channel. */
  extra: 12,
  /** Characters of what such a column holds. */
  cell: LONGEST_EXTRA,
  /** Characters of an id. The app's own have up to five. */
  id: 40,
  /** Characters of a name that is typed or comes in an input list; names of a setup file are kept as they are, up to `note`. */
  name: 80,
  /** Characters of a note, and of any text of a setup file: a longer one would hold up the whole page. */
  note: 2000,
} as const;

/**
 * Largest file of one setup, bytes. One with as much of everything as `LIMITS` allow, every text of characters that
 * take six bytes, takes less; a test holds that.
 */
export const MAX_SETUP_BYTES = 40 * 2 ** 20;

/** What a limit is of, and how much of it a setup holds. */
const HELD: readonly (readonly [of: Excess["of"], limit: number, count: (setup: Setup) => number])[] = [
  ["channels", LIMITS.channels, (s) => s.channels.length],
  ["pieces", LIMITS.pieces, (s) => s.kit.pieces.length],
  ["buses", LIMITS.buses, (s) => s.buses.length],
  ["listeners", LIMITS.listeners, (s) => s.listeners.length],
  ["extra", LIMITS.extra, (s) => Math.max(0, ...s.channels.map((c) => c.extra.length))],
  ["inputs", LIMITS.inputs, (s) => s.monitor.inputs.length],
];

/** Where a setup holds more than it may; null where it does not. */
export const tooMuch = (setup: Setup): Excess | null => {
  const over = HELD.find(([, limit, count]) => count(setup) > limit);
  return over ? { of: over[0], count: over[2](setup), limit: over[1] } : null;
};
