import { describe, expect, it } from "vitest";
import { BLOCK_FRAMES, type PairBlock } from "../../src/hear/block";
import { gatherer } from "../../src/hear/worklet/gather";

/** Quanta of a browser: 128 frames today. */
const QUANTUM = 128;

const ramp = (from: number, count: number): Float32Array =>
  Float32Array.from({ length: count }, (_, i) => from + i);

/** What comes out, and a way to push so many frames of rising numbers, right negative. */
const line = () => {
  const blocks: PairBlock[] = [];
  const it = gatherer((block) => void blocks.push(block));
  let at = 0;
  const push = (frames: number, quantum = QUANTUM): void => {
    for (let left = frames; left > 0; left -= quantum) {
      const samples = ramp(at, Math.min(quantum, left));
      it.take([samples, samples.map((x) => -x)]);
      at += samples.length;
    }
  };
  return { blocks, it, push };
};

describe("blocks of an input", () => {
  it.each([QUANTUM, 100, 3000])(
    "hold every sample of both channels in order, whatever comes at once: %i",
    (quantum) => {
      const { blocks, push } = line();
      push(3 * BLOCK_FRAMES, quantum);
      const left = blocks.flatMap(({ samples }) => [...samples.subarray(0, BLOCK_FRAMES)]);
      const right = blocks.flatMap(({ samples }) => [...samples.subarray(BLOCK_FRAMES)]);
      expect(left).toEqual([...ramp(0, 3 * BLOCK_FRAMES)]);
      expect(right).toEqual(left.map((x) => -x));
      expect(blocks.map(({ channels, isAfterGap }) => [channels, isAfterGap])).toEqual(
        Array.from({ length: 3 }, () => [2, false]),
      );
    },
  );

  it("hold one channel twice, and say so", () => {
    const { blocks, it: one } = line();
    one.take([ramp(0, BLOCK_FRAMES)]);
    expect(blocks[0]?.channels).toBe(1);
    expect(blocks[0]?.samples.subarray(BLOCK_FRAMES)).toEqual(ramp(0, BLOCK_FRAMES));
  });

  it("come from nothing where nothing is connected", () => {
    const { blocks, it: none } = line();
    none.take([]);
    expect(blocks).toEqual([]);
  });

  it("are filled again and again once they are given back", () => {
    const { blocks, it: filled, push } = line();
    const arrays = new Set<Float32Array>();
    for (let n = 0; n < 1000; n += 1) {
      push(BLOCK_FRAMES);
      const { samples } = blocks.shift() as PairBlock;
      arrays.add(samples);
      filled.giveBack(samples);
    }
    expect(arrays.size).toBe(1);
  });

  it("stop where nobody takes them, and say of the next that something is missing before it", () => {
    const { blocks, it: slow, push } = line();
    push(100 * BLOCK_FRAMES);
    expect(blocks).toHaveLength(64);
    for (const { samples } of blocks.splice(0)) slow.giveBack(samples);
    push(2 * BLOCK_FRAMES);
    expect(blocks.map(({ isAfterGap }) => isAfterGap)).toEqual([true, false]);
    expect(blocks[0]?.samples[0]).toBe(100 * BLOCK_FRAMES);
  });
});
