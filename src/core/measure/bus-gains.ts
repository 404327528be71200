import { levelOf } from "../level/decibels";
import { mixedChannelsOf } from "../mix/bus";
import type { Bus, Id, Setup } from "../model/setup";
import type { Db, Gain, Outlet, Sides } from "../model/units";
import { GAIN_INTO } from "../pan/stereo";
import type { MixFigures } from "./figures";

/** Which channel of which channel a track is. */
export interface TrackPlace {
  readonly channel: Id;
  readonly line: 0 | 1;
}

/**
 * Signed gain of each track into the sides of a bus as the setup stands; 0, 0 for what is muted, off or not in it.
 * @param sum null where there is none: the tracks are then measured each for itself
 */
export const gainsInBus = (setup: Setup, bus: Bus | null, places: readonly TrackPlace[]): Sides[] => {
  const gains = new Map((bus ? mixedChannelsOf(setup, bus) : []).map((p) => [p.channel.id, p.gains]));
  return places.map(({ channel, line }) => gains.get(channel)?.[line] ?? [0, 0]);
};

/** Gain of each track into one of the mixes. */
export const gainsInto = (mix: Outlet, gains: readonly Sides[]): Gain[] => gains.map(GAIN_INTO[mix]);

/** Gains that differ by less than this against the largest of them are the same. */
const SAME = 1e-9;

/** The one factor by which all gains have changed; null where they have changed by different ones. */
const factorOf = (was: readonly Gain[], now: readonly Gain[]): Gain | null => {
  const most = Math.max(0, ...was.map(Math.abs));
  const at = was.findIndex((g) => Math.abs(g) === most);
  if (most === 0) return now.every((g) => g === 0) ? 1 : null;
  const factor = (now[at] as Gain) / (was[at] as Gain);
  const apart = was.some((g, t) => Math.abs(factor * g - (now[t] as Gain)) > SAME * most * Math.abs(factor));
  return apart ? null : factor;
};

/** Peaks of a mix, dBFS and dBTP. */
export interface MixPeaks {
  readonly peak: Db;
  readonly truePeak: Db;
  /** They are those from before the change of gains: only the samples can tell the new ones. */
  readonly stale: boolean;
}

/**
 * Peaks of a measured mix through other gains. They follow where all gains have changed alike, as by a trim;
 * else they stay as they were and are stale.
 * @param was gain of each track when it was measured
 * @param now gain of each track as things stand
 */
export const peaksThrough = (mix: MixFigures, was: readonly Gain[], now: readonly Gain[]): MixPeaks => {
  const factor = factorOf(was, now);
  const by = levelOf(factor ?? 1);
  return { peak: mix.peak + by, truePeak: mix.truePeak + by, stale: factor === null };
};
