import type { MeasuredFigures } from "../core/measure/figures";
import type { Sides } from "../core/model/units";

/** One recording the user chose: a WAV file, read in slices, or one that the browser has decoded. */
export type Input =
  | { readonly kind: "file"; readonly name: string; readonly file: Blob }
  | {
      readonly kind: "decoded";
      readonly name: string;
      readonly rate: number;
      readonly channels: readonly Float32Array[];
    };

/** One channel of one input, and what the bus makes of it. */
export interface TrackPlan {
  /** Index in `inputs`. */
  readonly input: number;
  /** Counted from 0. */
  readonly channel: number;
  /** Signed gain into the left and right side; 0, 0 for a track that is measured but in no bus. */
  readonly gains: Sides;
}

/** What is to be measured, in one go. */
export interface Job {
  readonly inputs: readonly Input[];
  readonly tracks: readonly TrackPlan[];
  /** Whether the files begin together, or at the times their headers give. */
  readonly align: "start" | "time";
}

/** What came out. */
export interface Measurement {
  /** Tracks in the order of the job. */
  readonly figures: MeasuredFigures;
  /** Sentences about the files: cut off, of different lengths, shifted by their time. */
  readonly notes: readonly string[];
}

/** The end of a job. */
export type Outcome =
  | { readonly kind: "done"; readonly measurement: Measurement }
  /** One sentence for each thing that stands in the way. */
  | { readonly kind: "refused"; readonly why: readonly string[] };

/** What the worker says: how far it is, 0…1, or the end. */
export type Reply = { readonly kind: "progress"; readonly share: number } | Outcome;
