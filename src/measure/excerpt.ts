import { openInput } from "./input";
import { lineUp } from "./line-up";
import type { Job } from "./protocol";
import type { Slice } from "./wav/decode";

/** A short piece of every track, to be listened to. */
export interface Excerpt {
  readonly rate: number;
  /** Samples of each track of the job, all equally long. */
  readonly tracks: readonly Float32Array<ArrayBuffer>[];
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
