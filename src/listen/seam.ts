import type { Hertz, Seconds } from "../core/model/units";

/** Too short to be missed, too long to click. */
const FADE: Seconds = 0.01;

/** Makes a piece of a recording ready to go round: its ends are faded where they lie, so that the seam does not click. */
export const fadeEnds = (samples: Float32Array, rate: Hertz): void => {
  const last = samples.length - 1;
  const fade = Math.min(samples.length / 2, Math.round(FADE * rate));
  for (let i = 0; i < fade; i += 1) {
    samples[i] = (samples[i] as number) * (i / fade);
    // The sample in the middle of an odd number is at both ends.
    if (last - i !== i) samples[last - i] = (samples[last - i] as number) * (i / fade);
  }
};
