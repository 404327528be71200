import type { Hertz } from "../core/model/units";

/** A sound that comes once in every turn. */
export interface HitVoice {
  readonly samples: Float32Array<ArrayBuffer>;
  /** Where it begins, frames from the beginning of a turn; less than the length of one. */
  readonly at: number;
}

/** Voices that go round together. One that is longer than what is left of a turn sounds on into the next. */
export interface Round {
  readonly voices: readonly HitVoice[];
  readonly rate: Hertz;
  /** Frames of one turn. */
  readonly length: number;
}

/** The beginning of a sound. */
export interface Onset {
  /** Index of the voice. */
  readonly voice: number;
  /** Frames from the beginning of the first turn. */
  readonly frame: number;
}

/** Everything that begins from one frame on and before another, counted from the beginning of the first turn. */
export const onsetsBetween = ({ voices, length }: Round, from: number, to: number): Onset[] =>
  voices.flatMap(({ at }, voice) => {
    const onsets: Onset[] = [];
    const first = Math.max(0, Math.ceil((from - at) / length));
    for (let frame = at + first * length; frame < to; frame += length) onsets.push({ voice, frame });
    return onsets;
  });
