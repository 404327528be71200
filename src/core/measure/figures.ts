import type { Db, Gain, Hertz, Outlet, Seconds } from "../model/units";
import type { Products } from "./covariance";

/** What one track measures. Levels re full scale by samples: the rms of a full-scale sine is −3.01 dBFS. */
export interface TrackFigures {
  /** Over the whole length. */
  readonly rms: Db;
  /** Over the gating blocks (400 ms) within 20 dB of the loudest. */
  readonly gatedRms: Db;
  /** Share of the gating blocks that are, 0…1: how much of the time it plays. */
  readonly activity: number;
  /** Largest sample, dBFS. */
  readonly peak: Db;
  /** Largest value at or between the samples, dBTP. */
  readonly truePeak: Db;
  /** Largest sample over the rms of the whole length, dB; 0 when silent. */
  readonly crest: Db;
  /** Largest F time-weighted level. */
  readonly fast: Db;
  /** Largest S time-weighted level. */
  readonly slow: Db;
  /** Mean of all samples, share of full scale. */
  readonly offset: number;
  /** Three or more samples in a row at full scale: how often. */
  readonly clipped: number;
  /** Samples that were no number or beyond +120 dBFS, taken as silence. */
  readonly unusable: number;
  /** Not one sample other than 0. */
  readonly silent: boolean;
}

/** What one side, or the mono fold of the pair, measures. */
export interface MixFigures {
  readonly rms: Db;
  readonly gatedRms: Db;
  readonly peak: Db;
  readonly truePeak: Db;
  /** When the largest sample comes. */
  readonly peakAt: Seconds;
  /** What each track put into that sample, signed, share of full scale. They add up to the sample. */
  readonly parts: readonly Gain[];
}

/** Level over time, one row a step. */
export interface LevelCourse {
  /** Length of a step. */
  readonly step: Seconds;
  /** Columns of a row: every track, then left, right, mono. */
  readonly columns: number;
  /** Mean power of each step and column, row by row. */
  readonly powers: Float32Array;
}

/** The step in which the louder side is loudest. */
export interface Moment {
  readonly at: Seconds;
  readonly side: "left" | "right";
  readonly level: Db;
  /** Share of each track in the energies of that side and step, 0…1; they add up to 1. */
  readonly shares: readonly number[];
}

/** All that is measured of the tracks of a recording and of their sum. */
export interface MeasuredFigures {
  readonly rate: Hertz;
  readonly frames: number;
  readonly seconds: Seconds;
  readonly tracks: readonly TrackFigures[];
  readonly mixes: { readonly [outlet in Outlet]: MixFigures };
  /** Mean products of each two tracks over the whole length, packed. */
  readonly products: Products;
  /** Mean products of each gating block, one after the other; null where there would be too many to keep. */
  readonly blocks: Products | null;
  readonly course: LevelCourse;
  /** null when all is silent. */
  readonly loudest: Moment | null;
}
