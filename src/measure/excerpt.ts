import { openFeed } from "./feed";
import { lineUp } from "./line-up";
import type { Job } from "./protocol";

/** A short piece of every track, to be listened to. */
export interface Excerpt {
  readonly rate: number;
  /** Samples of each track of the job, all equally long. */
  readonly tracks: readonly Float32Array[];
}

/**
 * Reads a short piece of every track of a job: the only samples that ever lie in memory as a whole.
 * @param from seconds from the common beginning
 * @param seconds length; what lies beyond the end is silence
 * @returns null where the job cannot be read; measuring it says why
 */
export const readExcerpt = async (job: Job, from: number, seconds: number): Promise<Excerpt | null> => {
  const opened = await Promise.all(job.inputs.map(openFeed));
  const feeds = opened.flatMap((o) => (o.ok ? [o.feed] : []));
  const line = lineUp(feeds, job.align);
  if (feeds.length < opened.length || !line.ok) return null;
  const begin = Math.round(Math.max(0, from) * line.rate);
  const length = Math.round(seconds * line.rate);
  const tracks: Float32Array[] = [];
  try {
    for (const { input, channel } of job.tracks) {
      const feed = feeds[input];
      if (!feed) return null;
      const own = begin - (line.delays[input] as number);
      const first = Math.max(0, own);
      const last = Math.min(feed.frames, own + length);
      const samples = new Float64Array(length);
      if (first < last) {
        const slice = await feed.read(first, last - first);
        slice.decode(channel, 0, last - first, samples, first - own);
      }
      tracks.push(Float32Array.from(samples));
    }
  } catch {
    return null;
  }
  return { rate: line.rate, tracks };
};
