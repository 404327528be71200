import { BLOCK_FRAMES, type PairBlock } from "../block";

/** So many blocks may be on their way, a second and a half: more would grow without end where nobody takes them. */
const MOST_AWAY = 64;

/** Gathers what an input brings, a few samples at a time, into blocks. */
export interface Gatherer {
  /** Takes the next samples, one array a channel; none where nothing is connected. */
  readonly take: (input: readonly Float32Array[]) => void;
  /** Takes the array of a block back, to be filled again. */
  readonly giveBack: (samples: Float32Array<ArrayBuffer>) => void;
}

/**
 * Makes blocks of both channels without making arrays anew, once as many are on their way as it takes.
 * @param send hands a block on; its array is gone with it
 */
export const gatherer = (send: (block: PairBlock) => void): Gatherer => {
  const free: Float32Array<ArrayBuffer>[] = [];
  let away = 0;
  let filling: Float32Array<ArrayBuffer> | null = null;
  let filled = 0;
  let isAfterGap = false;

  const next = (): Float32Array<ArrayBuffer> | null =>
    free.pop() ?? (away < MOST_AWAY ? new Float32Array(2 * BLOCK_FRAMES) : null);

  const close = (channels: number): void => {
    if (filling) {
      away += 1;
      send({ samples: filling, channels, isAfterGap });
      isAfterGap = false;
    } else isAfterGap = true;
    filling = null;
    filled = 0;
  };

  return {
    take: (input) => {
      const [left, right = left] = input;
      if (!left || !right) return;
      for (let from = 0; from < left.length; ) {
        if (filled === 0) filling = next();
        const count = Math.min(left.length - from, BLOCK_FRAMES - filled);
        filling?.set(left.subarray(from, from + count), filled);
        filling?.set(right.subarray(from, from + count), BLOCK_FRAMES + filled);
        filled += count;
        from += count;
        if (filled === BLOCK_FRAMES) close(input.length);
      }
    },
    giveBack: (samples) => {
      away -= 1;
      free.push(samples);
    },
  };
};
