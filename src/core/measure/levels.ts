import { levelOfPower } from "../level/decibels";
import type { Db, Gain } from "../model/units";
import { mixedEnergy, type Products, productAt, productCount } from "./covariance";
import type { MeasuredFigures } from "./figures";
import { gateOf } from "./gate";

/** Level of a mix, got without the samples. */
export interface MixLevel {
  readonly rms: Db;
  /**
   * RMS when everybody plays: over the gating blocks that every track in the mix passes; null where there is none, and
   * where the blocks were too many to keep.
   */
  readonly together: Db | null;
}

const togetherIn = (blocks: Products, gains: readonly Gain[]): Db | null => {
  const size = productCount(gains.length);
  const count = blocks.length / size;
  const powersOf = (track: number): Float64Array =>
    Float64Array.from({ length: count }, (_, i) => blocks[i * size + productAt(track, track)] as number);
  const playing = new Uint8Array(count).fill(1);
  gains.forEach((gain, track) => {
    if (gain === 0) return;
    const powers = powersOf(track);
    const gate = gateOf(powers);
    // A silent track says nothing of when the others play: its gate is 0.
    powers.forEach((power, i) => {
      if (power < gate) playing[i] = 0;
    });
  });
  let energy = 0;
  let together = 0;
  playing.forEach((plays, i) => {
    if (plays === 0) return;
    energy += mixedEnergy(blocks, gains, i * size);
    together += 1;
  });
  return together === 0 ? null : levelOfPower(energy / together);
};

/**
 * Level of a measured recording through other gains, without reading it again: ΣΣ gi·gj·Pij is exact.
 * Peaks do not follow from products; they need the samples.
 * @param gains signed gain of each track
 */
export const levelThrough = (
  { products, blocks }: Pick<MeasuredFigures, "products" | "blocks">,
  gains: readonly Gain[],
): MixLevel => ({
  rms: levelOfPower(mixedEnergy(products, gains)),
  // Every block is looked at for it: only where somebody asks.
  get together() {
    return blocks && togetherIn(blocks, gains);
  },
});
