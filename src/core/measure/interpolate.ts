/**
 * Peaks between the samples, by 4× oversampling as ITU-R BS.1770-5 Annex 2 asks (at least 4×).
 * The filter is a sinc under a Kaiser window: phase 0 is the samples themselves, so a peak between
 * the samples is only ever added to the sample peak and can never come out below it.
 */

/** Samples each side of a place between two samples that make its value. */
export const REACH = 12;
const OVERSAMPLING = 4;
/** Shape of the window: flat to 0.45 of the rate within 0.1 dB; tried, not derived. */
const KAISER_BETA = 4;
/** Places that share one look at the largest sample around them. */
const RUN = 32;

/** Modified Bessel function of the first kind, order 0, by its series; for the Kaiser window. */
const bessel = (x: number): number => {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * Number.EPSILON; k += 1) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
};

/** Weights of the samples from REACH − 1 before to REACH behind, for a place `part` of the way to the next sample. */
const phase = (part: number): Float64Array => {
  const taps = new Float64Array(2 * REACH);
  let sum = 0;
  for (let k = 0; k < taps.length; k += 1) {
    const away = k - (REACH - 1) - part;
    const window = bessel(KAISER_BETA * Math.sqrt(1 - (away / REACH) ** 2)) / bessel(KAISER_BETA);
    const tap = (window * Math.sin(Math.PI * away)) / (Math.PI * away);
    taps[k] = tap;
    sum += tap;
  }
  return taps.map((tap) => tap / sum);
};

const PHASES = Array.from({ length: OVERSAMPLING - 1 }, (_, i) => phase((i + 1) / OVERSAMPLING));

/** No place between samples can exceed the largest sample within reach by more than this ratio. */
export const OVERSHOOT = Math.max(...PHASES.map((taps) => taps.reduce((sum, tap) => sum + Math.abs(tap), 0)));

const [QUARTER, HALF, THREE] = PHASES as [Float64Array, Float64Array, Float64Array];

/**
 * The largest absolute value between samples, or `best` if that is larger.
 * Runs whose largest sample cannot lead beyond the best so far are left out; the result is the same.
 * @param x samples; from `from` − REACH + 1 to `to` + REACH − 1 must exist
 * @param from first place: between x[from] and x[from + 1]
 * @param to place after the last
 * @example peakBetween(samples, 11, samples.length - 12, 0)
 */
export const peakBetween = (x: Float64Array, from: number, to: number, best: number): number => {
  let top = best;
  for (let start = from; start < to; start += RUN) {
    const end = Math.min(to, start + RUN);
    let near = 0;
    for (let i = start - REACH + 1; i < end + REACH; i += 1) {
      const size = Math.abs(x[i] as number);
      if (size > near) near = size;
    }
    if (near * OVERSHOOT <= top) continue;
    for (let n = start; n < end; n += 1) {
      let a = 0;
      let b = 0;
      let c = 0;
      const first = n - REACH + 1;
      for (let k = 0; k < 2 * REACH; k += 1) {
        const sample = x[first + k] as number;
        a += sample * (QUARTER[k] as number);
        b += sample * (HALF[k] as number);
        c += sample * (THREE[k] as number);
      }
      top = Math.max(top, Math.abs(a), Math.abs(b), Math.abs(c));
    }
  }
  return top;
};
