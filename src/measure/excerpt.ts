import type { Products } from "../core/measure/covariance";
import type { MeasuredFigures } from "../core/measure/figures";
import { STRETCH_STEPS } from "../core/measure/gate";
import type { Seconds } from "../core/model/units";
import { openInput } from "./input";
import { lineUp } from "./line-up";
import type { Job } from "./protocol";
import type { Slice } from "./wav/decode";

/** A short piece of every track, to be listened to. */
export interface Excerpt {
  readonly rate: number;
  /** Samples of each track of the job, all equally long. */
  readonly tracks: readonly Float32Array[];
}

/** What of one input lies in the excerpt: so many frames, and where they begin in it. */
interface MixedChannel {
  readonly slice: Slice;
  readonly count: number;
  readonly at: number;
}

/**
 * Reads a short piece of every track of a job: the only samples that ever lie in memory as a whole.
 * @param from seconds from the common beginning
 * @param seconds length; what lies beyond the end is silence
 * @returns null where the job cannot be read; measuring it says why
 */
export const readExcerpt = async (job: Job, from: number, seconds: number): Promise<Excerpt | null> => {
  const opened = await Promise.all(job.inputs.map((input) => openInput(input)));
  const inputs = opened.flatMap((o) => (o.ok ? [o.open] : []));
  const line = lineUp(inputs, job.align);
  if (inputs.length < opened.length || !line.ok) return null;
  const begin = Math.round(Math.max(0, from) * line.rate);
  const length = Math.round(seconds * line.rate);
  try {
    // A file of many channels is read once for all of them.
    const parts = await Promise.all(
      inputs.map(async (open, i): Promise<MixedChannel | null> => {
        const own = begin - (line.delays[i] as number);
        const first = Math.max(0, own);
        const last = Math.min(open.frames, own + length);
        if (first >= last) return null;
        return { slice: await open.read(first, last - first), count: last - first, at: first - own };
      }),
    );
    const tracks = job.tracks.map(({ input, channel }) => {
      const samples = new Float64Array(length);
      const part = parts[input];
      part?.slice.decode(channel, 0, part.count, samples, part.at);
      return Float32Array.from(samples);
    });
    return { rate: line.rate, tracks };
  } catch {
    return null;
  } finally {
    for (const open of inputs) open.close();
  }
};

/** The nearest time before, or at, `from` at which measured stretches of 400 ms begin. */
export const atStretch = ({ course }: MeasuredFigures, from: Seconds): Seconds => {
  const stretch = course.step * STRETCH_STEPS;
  return stretch * Math.floor(from / stretch);
};

/**
 * Mean products of each two tracks over a part of a recording, from its measured stretches: exact where the part
 * begins and ends with one. Those of the whole recording where its stretches were too many to keep.
 */
export const productsOver = (
  { products, stretches, course, seconds }: MeasuredFigures,
  from: Seconds,
  length: Seconds,
): Products => {
  if (!stretches) return products;
  const size = products.length;
  const stretch = course.step * STRETCH_STEPS;
  const end = Math.min(seconds, from + length);
  const mean = new Float64Array(size);
  for (let s = 0; s * size < stretches.length; s += 1) {
    const within = Math.min(end, (s + 1) * stretch) - Math.max(from, s * stretch);
    if (within <= 0) continue;
    for (let p = 0; p < size; p += 1)
      mean[p] = (mean[p] as number) + (within / (end - from)) * (stretches[s * size + p] as number);
  }
  return mean;
};
