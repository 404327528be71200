import { panGains } from "./laws";
import type { Console, Source, TwoChannelLaw } from "./setup";
import type { Gain, Legs, Pan } from "./units";

/** Gains of each channel of a source into left and right: one row for one channel, two for two. */
export type ChannelGains = readonly Legs[];

const falling: { readonly [law in Exclude<TwoChannelLaw, "pan">]: (away: number) => Gain } = {
  "balance-linear": (away) => 1 - away,
  "balance-sine": (away) => Math.sin(((1 - away) * Math.PI) / 2),
};

/**
 * Two-channel pan of the W3C Web Audio API 1.1, StereoPannerNode, stereo input:
 * the far channel moves over into the near leg instead of being lost.
 */
const twoChannelPan = (pan: Pan): ChannelGains => {
  const x = pan <= 0 ? pan + 1 : pan;
  const stays = x === 1 ? 0 : Math.cos((x * Math.PI) / 2);
  const moves = Math.sin((x * Math.PI) / 2);
  return pan <= 0
    ? [
        [1, 0],
        [stays, moves],
      ]
    : [
        [stays, moves],
        [0, 1],
      ];
};

/**
 * Gains of a two-channel source, left channel first.
 * Balance (common practice, no source): the near leg stays at 0 dB, the far one falls to silence and its content is lost.
 */
export const twoChannelGains = (law: TwoChannelLaw, pan: Pan): ChannelGains => {
  if (law === "pan") return twoChannelPan(pan);
  const far = falling[law](Math.abs(pan));
  return pan <= 0
    ? [
        [1, 0],
        [0, far],
      ]
    : [
        [far, 0],
        [0, 1],
      ];
};

/** Gains of a source at a pan, by what the console does to one and to two channels. */
export const channelGains = (console: Console, source: Pick<Source, "channels">, pan: Pan): ChannelGains =>
  source.channels === 1 ? [panGains(console, pan)] : twoChannelGains(console.twoChannel, pan);

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
