import { levelOf, levelOfPower } from "../level/decibels";
import { lazily, once } from "../lib/memo";
import type { Id, Piece, Recording } from "../model/setup";
import type { Db } from "../model/units";
import type { Contribution } from "./contributions";
import { correlatedLevel } from "./correlated";
import { playablePeak } from "./playable";
import { totalsOf } from "./totals";

/** What one channel brings to one outlet. */
export interface ContributionFigures {
  readonly channel: Id;
  /** dBFS rms in the console's convention; null where the level is not known. */
  readonly level: Db | null;
  /** dBFS; null where the peak is not known. */
  readonly peak: Db | null;
  /** Its part of the power, 0…1; 0 where its level is not known. */
  readonly energyShare: number;
  /** Its part of the sum of all peaks, 0…1; 0 where its peak is not known. */
  readonly peakShare: number;
}

/** A channel and its part of something, 0…1. */
export interface ContributionShare {
  readonly channel: Id;
  readonly share: number;
}

/** All figures of one side, or of the mono fold: after send, pan, polarity and trims. */
export interface SideFigures {
  /** Average RMS over the whole time: 10 lg Σ activity · 10^(gated RMS/10), dBFS in the desk’s rms convention. */
  readonly average: Db;
  /** RMS when everybody plays: the same without activity. */
  readonly level: Db;
  /** The working figure: the loudest contribution and the root-sum-square of the rest, dBFS. */
  readonly likely: Db;
  /** The largest peak that the players' limbs allow, dBFS. */
  readonly playable: Db;
  /** Every peak at once, dBFS: the bound. */
  readonly allAtOnce: Db;
  /** Average RMS by the correlations of the recording; null where it says nothing of these channels. */
  readonly correlated: Db | null;
  /** The highest single peak; null where no peak is known or all are silent. */
  readonly loudest: { readonly channel: Id; readonly peak: Db } | null;
  /** Whose send costs most, in energy and in peak; null where nothing is known. */
  readonly costliest: { readonly energy: ContributionShare | null; readonly peak: ContributionShare | null };
  /** In the order of the sends. */
  readonly contributions: readonly ContributionFigures[];
}

const known = (amplitude: number | null): Db | null => (amplitude === null ? null : levelOf(amplitude));

const largest = (
  contributions: readonly ContributionFigures[],
  of: (c: ContributionFigures) => number,
): ContributionShare | null => {
  let most: ContributionShare | null = null;
  for (const c of contributions) {
    const share = of(c);
    if (share > (most?.share ?? 0)) most = { channel: c.channel, share };
  }
  return most;
};

/** Figures of what arrives at one outlet. */
export const sideFigures = (
  arrivals: readonly Contribution[],
  pieces: ReadonlyMap<Id, Piece>,
  recording: Recording | null,
): SideFigures => {
  const { power, average, allAligned: allAtOnce, likely, loudest } = totalsOf(arrivals);
  const contributions = once(() =>
    arrivals.map(
      ({ part, rms, peak }): ContributionFigures => ({
        channel: part.channel.id,
        level: known(rms),
        peak: known(peak),
        energyShare: rms === null || power === 0 ? 0 : (rms * rms) / power,
        peakShare: peak === null || allAtOnce === 0 ? 0 : peak / allAtOnce,
      }),
    ),
  );
  return lazily<SideFigures>({
    average: () => levelOfPower(average),
    level: () => levelOfPower(power),
    likely: () => levelOf(likely),
    playable: () => levelOf(playablePeak(arrivals, pieces)),
    allAtOnce: () => levelOf(allAtOnce),
    correlated: () => correlatedLevel(arrivals, recording),
    loudest: () => loudest && { channel: loudest.part.channel.id, peak: levelOf(loudest.peak ?? 0) },
    costliest: () => ({
      energy: largest(contributions(), (c) => c.energyShare),
      peak: largest(contributions(), (c) => c.peakShare),
    }),
    contributions,
  });
};
