import type { Hertz, Seconds } from "../core/model/units";

/** Too short to be missed, too long to click. */
const FADE: Seconds = 0.01;

/** A piece of a recording made ready to go round: its ends fade, so that the seam does not click. */
export const withSeam = (samples: Float32Array, rate: Hertz): Float32Array => {
  const fade = Math.min(samples.length / 2, Math.round(FADE * rate));
  return samples.map((x, i) => x * Math.min(1, i / fade, (samples.length - 1 - i) / fade));
};
