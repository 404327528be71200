import { levelOfPower, powerOf } from "../core/decibels";
import { mixedEnergy, productAt } from "../core/measure/covariance";
import type { MeasuredFigures, TrackFigures } from "../core/measure/figures";
import type { TrackPlace } from "../core/measure/through";
import type { Id, Measured, Recording } from "../core/setup";

/** Tracks of one source, by index. */
interface Group {
  readonly source: Id;
  readonly tracks: readonly number[];
}

const groups = (places: readonly TrackPlace[]): Group[] => {
  const ids = [...new Set(places.map((p) => p.source))];
  return ids.map((source) => ({
    source,
    tracks: places.flatMap((p, t) => (p.source === source ? [t] : [])),
  }));
};

/** A source of two channels has one level: their mean power, and the larger of their peaks. */
const measuredOf = (figures: MeasuredFigures, { source, tracks }: Group): Measured => {
  const of = tracks.map((t) => figures.tracks[t] as TrackFigures);
  const mean = (key: "rms" | "playing"): number =>
    levelOfPower(of.reduce((sum, f) => sum + powerOf(f[key]), 0) / of.length);
  const most = (key: "peak" | "truePeak" | "fast" | "slow"): number => Math.max(...of.map((f) => f[key]));
  return {
    source,
    rms: mean("rms"),
    playing: mean("playing"),
    peak: most("peak"),
    truePeak: most("truePeak"),
    fast: most("fast"),
    slow: most("slow"),
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
 * @param places the source of each track, in the order of the tracks
 */
export const toRecording = (
  name: string,
  figures: MeasuredFigures,
  places: readonly TrackPlace[],
): Recording => {
  const sources = groups(places);
  return {
    name,
    seconds: figures.seconds,
    sources: sources.map((group) => measuredOf(figures, group)),
    correlation: sources.map((a) => sources.map((b) => correlationOf(figures, a, b))),
  };
};
