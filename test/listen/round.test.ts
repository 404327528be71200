import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { onsetsBetween, type Round } from "../../src/listen/round";

const roundOfStarts = (starts: readonly number[], length: number): Round => ({
  voices: starts.map((at) => ({ samples: new Float32Array(1), at })),
  rate: 48_000,
  length,
});
const sorted = (frames: readonly number[]): number[] => [...frames].sort((a, b) => a - b);

describe("what begins when", () => {
  it("each voice once a turn, from its place on", () => {
    const onsets = onsetsBetween(roundOfStarts([0, 300], 1000), 0, 2300);
    expect(onsets).toEqual([
      { voice: 0, frame: 0 },
      { voice: 0, frame: 1000 },
      { voice: 0, frame: 2000 },
      { voice: 1, frame: 300 },
      { voice: 1, frame: 1300 },
    ]);
  });

  it("planned piece by piece, nothing is missed and nothing comes twice", () => {
    const places = fc.array(fc.nat(999), { minLength: 1, maxLength: 20 });
    const cuts = fc.array(fc.nat(5000), { maxLength: 20 });
    fc.assert(
      fc.property(places, cuts, (starts, between) => {
        const round = roundOfStarts(starts, 1000);
        const ends = [...sorted(between), 5000];
        const pieces = ends.flatMap((end, i) => onsetsBetween(round, ends[i - 1] ?? 0, end));
        const expected = starts.flatMap((at) => [0, 1, 2, 3, 4].map((turn) => turn * 1000 + at));
        expect(sorted(pieces.map((o) => o.frame))).toEqual(sorted(expected));
        for (const { voice, frame } of pieces) expect(frame % 1000).toBe(starts[voice]);
      }),
    );
  });
});
