import type { Channel, Desk, StereoLaw } from "../model/setup";
import type { Gain, Outlet, Pan, Sides } from "../model/units";
import { panGains, quarter } from "./laws";

/** Gains of each channel of a channel into left and right: one row for one channel, two for two. */
export type ChannelGains = readonly Sides[];

/**
 * Gains of the far channel into the far and into the near side, by the distance of the pan from centre;
 * the near channel stays in its side at 0 dB.
 */
const farChannel: {
  readonly [law in StereoLaw]: (away: number) => { readonly stays: Gain; readonly crosses: Gain };
} = {
  "balance-linear": (away) => ({ stays: 1 - away, crosses: 0 }),
  "balance-sine": (away) => ({ stays: quarter(1 - away), crosses: 0 }),
  pan: (away) => ({ stays: quarter(1 - away), crosses: quarter(away) }),
};

/**
 * Gains of a stereo channel, left channel first; a mirrored pan gives exactly the mirrored gains.
 * Balance (common practice, no source): the far channel falls to silence and what it carries is lost.
 * Pan (W3C Web Audio API 1.1, StereoPannerNode, stereo input): the far channel moves over into the near side.
 * @param pan −1 house left … +1 house right
 */
export const stereoGains = (law: StereoLaw, pan: Pan): ChannelGains => {
  const { stays, crosses } = farChannel[law](Math.abs(pan));
  return pan <= 0
    ? [
        [1, 0],
        [crosses, stays],
      ]
    : [
        [stays, crosses],
        [0, 1],
      ];
};

/** Gains of a channel at a pan, by what the console does to one and to two channels. */
export const channelGains = (console: Desk, channel: Pick<Channel, "lines">, pan: Pan): ChannelGains =>
  channel.lines === 1 ? [panGains(console, pan)] : stereoGains(console.stereoLaw, pan);

/** What is left of two sides that cancel, as a share of the louder one, is the rounding of the arithmetic. */
const ROUNDING = 1e-12;

const both = ([l, r]: Sides): Sides => {
  const sum = l + r;
  const kept = Math.abs(sum) > ROUNDING * Math.max(Math.abs(l), Math.abs(r)) ? sum : 0;
  return [kept, kept];
};

/** Both sides carry the plain sum left + right; opposite and equal ones leave silence. */
export const foldedGains = (gains: ChannelGains): ChannelGains => gains.map(both);

/** The sides the other way round. */
export const swappedGains = (gains: ChannelGains): ChannelGains => gains.map(([l, r]) => [r, l]);

/** Each side through a gain of its own. */
export const scaledGains = (gains: ChannelGains, by: Sides): ChannelGains =>
  gains.map(([l, r]) => [l * by[0], r * by[1]]);

/** Left and right of all channels together as uncorrelated signals: root of the sum of squares. */
export const energySides = (gains: ChannelGains): Sides => {
  let left = 0;
  let right = 0;
  for (const [l, r] of gains) {
    left += l * l;
    right += r * r;
  }
  return [Math.sqrt(left), Math.sqrt(right)];
};

/** What of a gain into both sides arrives at one place where a bus comes out. */
export const GAIN_INTO: { readonly [outlet in Outlet]: (gain: Sides) => Gain } = {
  left: ([left]) => left,
  right: ([, right]) => right,
  mono: ([left, right]) => left + right,
};
