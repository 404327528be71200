import { noise } from "../tools/chance.mjs";
import { type WavPlan, wavFile } from "./wavfile";

/** A file of one track of soft noise. */
export const noiseWav = (seed: number, frames: number, plan?: WavPlan): Buffer => {
  const sound = noise(seed);
  return Buffer.from(wavFile([Float64Array.from({ length: frames }, () => 0.1 * sound())], plan));
};
