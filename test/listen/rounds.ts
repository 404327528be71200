import type { Round } from "../../src/listen/round";

/** Each voice over one turn, written out: what sounds beyond the end is at the beginning. */
export const turnOf = ({ voices, length }: Round): Float32Array[] =>
  voices.map(({ samples, at }) => {
    const track = new Float32Array(length);
    samples.forEach((x, i) => {
      track[(at + i) % length] = x;
    });
    return track;
  });

/** Each voice over the first turn, written out: nothing sounds on from a turn before it. */
export const firstTurnOf = ({ voices, length }: Round): Float32Array[] =>
  voices.map(({ samples, at }) => {
    const track = new Float32Array(length);
    track.set(samples.subarray(0, length - at), at);
    return track;
  });
