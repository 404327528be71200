import type { MeasuredFigures } from "../../src/core/measure/figures";
import type { Sides } from "../../src/core/model/units";
import { runJob } from "../../src/measure/engine";
import type { Job, JobOutcome } from "../../src/measure/protocol";
import type { SoundFileNote } from "../../src/text/sound-files";
import { type WavPlan, wavFile } from "./wavfile";

/** A chosen file with these bytes. */
export const file = (name: string, bytes: Uint8Array): Job["inputs"][number] => ({
  kind: "file",
  name,
  file: new Blob([bytes as Uint8Array<ArrayBuffer>]),
});

/** Measures one file's channels through these gains. */
export const measureBytes = (bytes: Uint8Array, gains: readonly Sides[]): Promise<JobOutcome> =>
  runJob(
    {
      inputs: [file("take.wav", bytes)],
      tracks: gains.map((g, channel) => ({ input: 0, channel, gains: g })),
      align: "start",
    },
    () => undefined,
  );

/** MeasuredFigures of channels written as a WAV file; 64-bit floating point unless the plan says otherwise. */
export const figuresOf = async (
  channels: readonly ArrayLike<number>[],
  gains: readonly Sides[] = channels.map(() => [1, 0]),
  plan: WavPlan = { coding: "float", width: 8 },
): Promise<MeasuredFigures> => {
  const outcome = await measureBytes(wavFile(channels, plan), gains);
  if (outcome.kind === "refused") throw new Error(JSON.stringify(outcome.why));
  return outcome.measurement.figures;
};

/** Why a job was refused. */
export const whyNot = (outcome: JobOutcome): readonly SoundFileNote[] =>
  outcome.kind === "refused" ? outcome.why : [];
/** What was told with a measurement. */
export const notesOf = (outcome: JobOutcome): readonly SoundFileNote[] =>
  outcome.kind === "done" ? outcome.measurement.notes : [];

/** Every number anywhere in a value. */
export const numbersIn = (value: unknown): number[] => {
  if (typeof value === "number") return [value];
  if (ArrayBuffer.isView(value)) return Array.from(value as Float64Array);
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
};
