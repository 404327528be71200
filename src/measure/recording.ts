import { levelOfPower, powerOf } from "../core/level/decibels";
import type { TrackPlace } from "../core/measure/bus-gains";
import { mixedEnergy, productAt } from "../core/measure/covariance";
import type { MeasuredFigures, TrackFigures } from "../core/measure/figures";
import type { Id, MeasuredChannel, Recording } from "../core/model/setup";

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
  const mean = (key: "rms" | "playing"): number =>
    levelOfPower(of.reduce((sum, f) => sum + powerOf(f[key]), 0) / of.length);
  const most = (key: "peak" | "truePeak" | "fast" | "slow"): number => Math.max(...of.map((f) => f[key]));
  return {
    channel,
    rms: mean("rms"),
    gatedRms: mean("playing"),
    peak: most("peak"),
    truePeak: most("truePeak"),
    fast: most("fast"),
    slow: most("slow"),
    activity: null,
  };
};

/** Correlation of two sources: of their channels added plainly, which for one channel is the track itself. */
const correlationOf = (figures: MeasuredFigures, a: Group, b: Group): number => {
  if (a === b) return 1;
  const { products } = figures;
  const energy = (group: Group): number =>
    mixedEnergy(
      products,
      figures.tracks.map((_, t) => (group.tracks.includes(t) ? 1 : 0)),
    );
  let both = 0;
  for (const s of a.tracks) for (const t of b.tracks) both += products[productAt(s, t)] as number;
  const size = Math.sqrt(energy(a) * energy(b));
  return size === 0 ? 0 : Math.max(-1, Math.min(1, both / size));
};

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
  return {
    name,
    seconds: figures.seconds,
    channels: channels.map((group) => measuredOf(figures, group)),
    correlation: channels.map((a) => channels.map((b) => correlationOf(figures, a, b))),
  };
};
