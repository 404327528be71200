import type { MeasuredFigures } from "../core/measure/figures";
import type { Seconds, Sides } from "../core/model/units";
import type { SoundFileNote } from "../text/sound-files";
import type { WorkerTrouble } from "../text/worker-fault";
import type { Excerpt } from "./excerpt";

/** A compressed file that the platform decodes in pieces, as it was looked at. */
export interface CompressedInput {
  readonly kind: "compressed";
  readonly name: string;
  readonly file: Blob;
  readonly rate: number;
  readonly channels: number;
  readonly frames: number;
  /** Frames that its header promises; null where it says nothing exact. */
  readonly promised: number | null;
}

/** One recording the user chose: a WAV file, read in slices, a compressed one, or one that was decoded as a whole. */
export type Input =
  | { readonly kind: "file"; readonly name: string; readonly file: Blob }
  | CompressedInput
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
  /** What is to be said of the files: cut off, of different lengths, shifted by their time. */
  readonly notes: readonly SoundFileNote[];
}

/** The end of a job. */
export type JobOutcome =
  | { readonly kind: "done"; readonly measurement: Measurement }
  /** Everything that stands in the way. */
  | { readonly kind: "refused"; readonly why: readonly SoundFileNote[] };

/** What a look at a compressed file found. */
export type Look =
  | {
      readonly kind: "sound";
      readonly rate: number;
      readonly channels: number;
      readonly frames: number;
      /** Frames that its header promises; null where it says nothing exact. */
      readonly promised: number | null;
      /** Whether the platform decodes it in pieces. */
      readonly inPieces: boolean;
    }
  /** No compressed sound of a kind that is known. */
  | { readonly kind: "unknown" }
  /** The file cannot be read any more. */
  | { readonly kind: "gone" }
  /** It took longer than this. */
  | { readonly kind: "late"; readonly seconds: Seconds }
  /** Nobody knows. */
  | { readonly kind: "failed"; readonly trouble: WorkerTrouble };

/** What the worker is asked, and what it answers in the end. */
export interface Answers {
  readonly measure: { readonly asks: { readonly job: Job }; readonly gets: JobOutcome };
  readonly excerpt: {
    readonly asks: { readonly job: Job; readonly from: Seconds; readonly seconds: Seconds };
    readonly gets: Excerpt | null;
  };
  readonly look: { readonly asks: { readonly file: Blob }; readonly gets: Look };
}

/** One task for the worker. */
export type MeasureTask = {
  [kind in keyof Answers]: { readonly kind: kind } & Answers[kind]["asks"];
}[keyof Answers];

/** What the worker says: how far it is, 0…1, or the answer, which is the end. */
export type MeasureReply<Answer> =
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "answer"; readonly answer: Answer };
