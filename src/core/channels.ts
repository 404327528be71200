import { panGains, quarter } from "./laws";
import type { Console, Source, TwoChannelLaw } from "./setup";
import type { Gain, Legs, Outlet, Pan } from "./units";

/** Gains of each channel of a source into left and right: one row for one channel, two for two. */
export type ChannelGains = readonly Legs[];

/**
 * Gains of the far channel into the far and into the near leg, by the distance of the pan from centre;
 * the near channel stays in its leg at 0 dB.
 */
const farChannel: {
  readonly [law in TwoChannelLaw]: (away: number) => { readonly stays: Gain; readonly crosses: Gain };
} = {
  "balance-linear": (away) => ({ stays: 1 - away, crosses: 0 }),
  "balance-sine": (away) => ({ stays: quarter(1 - away), crosses: 0 }),
  pan: (away) => ({ stays: quarter(1 - away), crosses: quarter(away) }),
};

/**
 * Gains of a two-channel source, left channel first; a mirrored pan gives exactly the mirrored gains.
 * Balance (common practice, no source): the far channel falls to silence and what it carries is lost.
 * Pan (W3C Web Audio API 1.1, StereoPannerNode, stereo input): the far channel moves over into the near leg.
 * @param pan −1 house left … +1 house right
 */
export const twoChannelGains = (law: TwoChannelLaw, pan: Pan): ChannelGains => {
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

/** Gains of a source at a pan, by what the console does to one and to two channels. */
export const channelGains = (console: Console, source: Pick<Source, "channels">, pan: Pan): ChannelGains =>
  source.channels === 1 ? [panGains(console, pan)] : twoChannelGains(console.twoChannel, pan);

/** What is left of two legs that cancel, as a share of the louder one, is the rounding of the arithmetic. */
const ROUNDING = 1e-12;

const both = ([l, r]: Legs): Legs => {
  const sum = l + r;
  const kept = Math.abs(sum) > ROUNDING * Math.max(Math.abs(l), Math.abs(r)) ? sum : 0;
  return [kept, kept];
};

/** Both legs carry the plain sum left + right; opposite and equal ones leave silence. */
export const foldedGains = (channels: ChannelGains): ChannelGains => channels.map(both);

/** The legs the other way round. */
export const swappedGains = (channels: ChannelGains): ChannelGains => channels.map(([l, r]) => [r, l]);

/** Each leg through a gain of its own. */
export const scaledGains = (channels: ChannelGains, by: Legs): ChannelGains =>
  channels.map(([l, r]) => [l * by[0], r * by[1]]);

/** Left and right of all channels together as uncorrelated signals: root of the sum of squares. */
export const energyLegs = (channels: ChannelGains): Legs => {
  let left = 0;
  let right = 0;
  for (const [l, r] of channels) {
    left += l * l;
    right += r * r;
  }
  return [Math.sqrt(left), Math.sqrt(right)];
};

/** What of a gain into both legs arrives at one place where a sum comes out. */
export const GAIN_INTO: { readonly [outlet in Outlet]: (gain: Legs) => Gain } = {
  left: ([left]) => left,
  right: ([, right]) => right,
  mono: ([left, right]) => left + right,
};
