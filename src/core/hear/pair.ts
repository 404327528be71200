import type { Db, Seconds, Sides } from "../model/units";

/** What a pair of signals is, as far as its samples of the last second tell. */
export type PairKind =
  /** Below −80 dBFS on both sides. */
  | "silent"
  /** Both sides carry the very same samples: a one-channel input handed out twice, as a phone's own microphone is. */
  | "identical"
  /** Only this side carries anything. */
  | "left-only"
  | "right-only"
  /** Two sides that differ. */
  | "pair";

/** What one side of a live pair reads. Levels re full scale by samples; a full-scale sine has an rms of −3.01 dBFS. */
export interface SideReading {
  /** F time-weighted (125 ms). */
  readonly rms: Db;
  /** Largest sample of the last half second, dBFS. */
  readonly peak: Db;
  /** Level of all that came since the reset, dBFS rms. */
  readonly meanRms: Db;
  /** Largest F time-weighted level since the reset. */
  readonly maxRms: Db;
  /** Largest sample since the reset, dBFS. */
  readonly maxPeak: Db;
  /** Largest value at or between the samples since the reset, dBTP. */
  readonly maxTruePeak: Db;
  /** Three or more samples in a row at full scale since the reset: how often. */
  readonly clipped: number;
}

/** What a live pair reads. */
export interface PairReading {
  readonly kind: PairKind;
  readonly sides: Sides<SideReading>;
  /** Since the reset. */
  readonly seconds: Seconds;
  /** Right over left over the last second, dB; NaN never: 0 when both are silent. */
  readonly difference: Db;
  /** Correlation of left and right over the last second, −1…1; null where a side is silent. */
  readonly correlation: number | null;
  /** Clipped within the last second. */
  readonly overload: boolean;
}

/** Meters of a live pair. What it keeps does not grow. Made by `pairMeter(sampleRate)`. */
export interface PairMeter {
  /** Takes samples of both sides, equally many; blocks of any length. */
  readonly take: (left: Float32Array, right: Float32Array) => void;
  readonly read: () => PairReading;
  /** Forgets what is held. */
  readonly reset: () => void;
}
