import { levelOf } from "../level/decibels";
import type { MixedChannel } from "../mix/bus";
import type { HeardChannel } from "../mix/ear-gains";
import type { Bus, Id } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { energySides } from "../pan/stereo";
import { heardPlace, levelDifference } from "../stereo/position";

/** How one channel moves when both sides are folded to mono. */
export interface MonoFold {
  readonly channel: Id;
  /**
   * Level in the fold against the channel at its send without pan or trim of the bus, dB.
   * A centre channel is 3.01 dB above a fully panned one by the constant-power laws and level with it by the linear one.
   */
  readonly rise: Db;
}

/** One channel of the far side, heard with one ear only. */
export interface FarChannel {
  readonly channel: Id;
  /** Level in this ear against the other, dB, negative; −∞ where it is gone. */
  readonly drop: Db;
}

/** What the plain sum left + right does to each channel of a pair; empty for a mono bus, which has no sides to fold. */
export const foldsOf = (bus: Bus, parts: readonly MixedChannel[]): MonoFold[] => {
  if (!bus.stereo) return [];
  return parts.map(({ channel, sent, gains }) => {
    const folded = Math.sqrt(gains.reduce((power, [l, r]) => power + (l + r) ** 2, 0));
    // A silent send has nothing to compare with.
    const rise =
      folded === 0 ? Number.NEGATIVE_INFINITY : levelOf(folded / sent) - ((bus.fader ?? 0) + bus.trim);
    return { channel: channel.id, rise };
  });
};

/**
 * What the channels of the far side drop to in each single ear, most lost first; none for a mono bus.
 * @param heard what the bus brings to the ears, by its inputs
 */
export const oneEarOf = (bus: Bus, heard: readonly HeardChannel[]): Sides<readonly FarChannel[]> => {
  if (!bus.stereo) return [[], []];
  const ears = heard.map(({ channel, gains }) => ({ channel, sides: energySides(gains) }));
  const far = (side: "left" | "right"): FarChannel[] =>
    ears
      .filter((h) => heardPlace(h.sides) === side)
      .map((h) => ({ channel: h.channel.id, drop: -Math.abs(levelDifference(h.sides)) }))
      .sort((a, b) => (a.drop === b.drop ? 0 : a.drop - b.drop));
  return [far("right"), far("left")];
};
