import type { Db, Seconds, Sides } from "../model/units";
import type { FirstWave } from "./first-wave";

/** One hit as it was measured. */
export interface MeasuredHit {
  /** Onset, from the first sample. */
  readonly at: Seconds;
  /** Level of each side over the hit, noise taken off, dBFS rms; −∞ for a side with nothing above the noise. */
  readonly levels: Sides<Db>;
  /** Highest level of both sides together over 3 ms, dBFS rms. */
  readonly loudest: Db;
  /** Level of the noise on each side while it was measured, dBFS rms. */
  readonly noise: Sides<Db>;
  /** Right over left, dB: ±∞ with one side silent. */
  readonly difference: Db;
  /** Standard error of the difference by the noise, dB; ∞ with a silent side. */
  readonly error: Db;
  /** Correlation of left and right over the hit, noise taken off, −1…1; null with a silent side. */
  readonly correlation: number | null;
  /** The side with nothing above the noise. */
  readonly silentSide: "left" | "right" | null;
  /** Its first wave; null where that does not rise out of the noise. */
  readonly first: FirstWave | null;
}

/** Why a hit was not measured. */
export type HitRefusal =
  /** Two hits within one window. */
  | "double"
  /** A side clipped: its level is not what was played. */
  | "clipped";

/** Why a hit does not count: nobody can have read what to hit, for the last one was still being judged, or just had been. */
export type UncountedHit = HitRefusal | "early";

/** What the finder says of an onset, not later than 200 ms after it. */
export type FoundHit =
  | { readonly kind: "hit"; readonly hit: MeasuredHit }
  | { readonly kind: "refused"; readonly at: Seconds; readonly why: HitRefusal };

/** Finds hits in a live pair. What it keeps does not grow. Made by `hitFinder(sampleRate)`. */
export interface HitFinder {
  /** Takes samples of both sides, equally many; blocks of any length. @returns the hits that ended in them */
  readonly take: (left: Float32Array, right: Float32Array) => readonly FoundHit[];
}
