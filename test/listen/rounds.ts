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
