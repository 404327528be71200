import { levelOfPower, powerOf } from "../core/level/decibels";
import type { TrackPlace } from "../core/measure/bus-gains";
import { correlationOf } from "../core/measure/covariance";
import type { MeasuredFigures, TrackFigures } from "../core/measure/figures";
import { keptLevel } from "../core/measure/range";
import type { Id, MeasuredChannel, Recording } from "../core/model/setup";
import type { Gain } from "../core/model/units";

/** Tracks of one channel, by index. */
interface Group {
  readonly channel: Id;
  readonly tracks: readonly number[];
}

const groups = (places: readonly TrackPlace[]): Group[] => {
  const ids = [...new Set(places.map((p) => p.channel))];
  return ids.map((channel) => ({
    channel,
    tracks: places.flatMap((p, t) => (p.channel === channel ? [t] : [])),
  }));
};

/** A channel of two channels has one level: their mean power, and the larger of their peaks. */
const measuredOf = (figures: MeasuredFigures, { channel, tracks }: Group): MeasuredChannel => {
  const of = tracks.map((t) => figures.tracks[t] as TrackFigures);
  const mean = (key: "rms" | "gatedRms"): number =>
    keptLevel(levelOfPower(of.reduce((sum, f) => sum + powerOf(f[key]), 0) / of.length));
  const most = (key: "peak" | "truePeak" | "fast" | "slow"): number =>
    keptLevel(Math.max(...of.map((f) => f[key])));
  return {
    channel,
    rms: mean("rms"),
    gatedRms: mean("gatedRms"),
    peak: most("peak"),
    truePeak: most("truePeak"),
    fast: most("fast"),
    slow: most("slow"),
    activity: activityOf(figures, tracks),
  };
};

/**
 * Activity of a channel, 0…1. Of two channels it is weighed by their gated power, so that activity times gated power
 * stays the mean of both, as the average RMS of a bus has it.
 * @param tracks index of each of its tracks
 */
export const activityOf = (figures: MeasuredFigures, tracks: readonly number[]): number => {
  const of = tracks.map((t) => figures.tracks[t] as TrackFigures);
  const gated = of.reduce((sum, f) => sum + powerOf(f.gatedRms), 0);
  return gated === 0 ? 0 : of.reduce((sum, f) => sum + f.activity * powerOf(f.gatedRms), 0) / gated;
};

/** A channel as a mix: its channels added plainly, which for one channel is the track itself. */
const mixOf = (figures: MeasuredFigures, { tracks }: Group): Gain[] =>
  figures.tracks.map((_, t) => (tracks.includes(t) ? 1 : 0));

/**
 * What a setup keeps of a measurement: figures, no audio.
 * @param places the channel of each track, in the order of the tracks
 */
export const toRecording = (
  name: string,
  figures: MeasuredFigures,
  places: readonly TrackPlace[],
): Recording => {
  const channels = groups(places);
  const mixes = channels.map((group) => mixOf(figures, group));
  return {
    name,
    seconds: figures.seconds,
    channels: channels.map((group) => measuredOf(figures, group)),
    correlation: mixes.map((a) => mixes.map((b) => (a === b ? 1 : correlationOf(figures.products, a, b)))),
  };
};
