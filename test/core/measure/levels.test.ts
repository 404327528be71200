import { describe, expect, it } from "vitest";
import { levelOfPower } from "../../../src/core/level/decibels";
import type { MeasuredFigures } from "../../../src/core/measure/figures";
import { levelThrough } from "../../../src/core/measure/levels";
import { figuresOf } from "../../measure/job";
import { expectNear } from "../../near";
import { noise } from "../../tools/chance.mjs";

/** Samples of a gating block at 48 kHz. */
const BLOCK = 19_200;
const common = noise(9);
const shared = Float64Array.from({ length: 6 * BLOCK }, () => 0.2 * common());

/** A track that sounds in some of six blocks, and has something in common with the others. */
const playing = (seed: number, blocks: readonly number[]): Float64Array => {
  const own = noise(seed);
  return shared.map((x, i) => (blocks.includes(Math.floor(i / BLOCK)) ? x + 0.2 * own() : 0));
};
const KICK = playing(1, [0, 1, 2, 3]);
const SNARE = playing(2, [1, 2, 4]);
const TOM = playing(3, [5]);

describe("RMS when everybody plays", () => {
  const through = async (tracks: readonly Float64Array[], gains: readonly number[]) =>
    levelThrough(await figuresOf(tracks), gains).together;

  it("is that of the samples in the blocks in which all of the mix play, with what they have in common", async () => {
    let energy = 0;
    for (let i = BLOCK; i < 3 * BLOCK; i += 1)
      energy += (0.7 * (KICK[i] as number) - 0.4 * (SNARE[i] as number)) ** 2;
    const together = levelOfPower(energy / (2 * BLOCK));
    expectNear(await through([KICK, SNARE], [0.7, -0.4]), together, 1e-9);
    // Who is not in the mix, and who never plays, need not play.
    expectNear(await through([KICK, SNARE, TOM], [0.7, -0.4, 0]), together, 1e-9);
    expectNear(await through([KICK, SNARE, new Float64Array(KICK.length)], [0.7, -0.4, 1]), together, 1e-9);
  });

  it("is not known where they never play together, or the blocks were too many to keep", async () => {
    expect(await through([KICK, SNARE, TOM], [0.7, -0.4, 0.1])).toBeNull();
    const figures: MeasuredFigures = { ...(await figuresOf([KICK])), blocks: null };
    expect(levelThrough(figures, [1]).together).toBeNull();
  });
});
