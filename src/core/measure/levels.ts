import { levelOfPower } from "../level/decibels";
import type { Db, Gain } from "../model/units";
import { mixedEnergy, productCount } from "./covariance";
import type { MeasuredFigures } from "./figures";
import { gated } from "./gate";

/** Level of a mix, got without the samples. */
export interface MixLevel {
  readonly rms: Db;
  /** null where the gating blocks were too many to keep: measure again. */
  readonly gatedRms: Db | null;
}

/**
 * Level of a measured recording through other gains, without reading it again: ΣΣ gi·gj·Pij is exact.
 * Peaks do not follow from products; they need the samples.
 * @param gains signed gain of each track
 */
export const levelThrough = (
  figures: Pick<MeasuredFigures, "products" | "blocks">,
  gains: readonly Gain[],
): MixLevel => {
  const { products, blocks } = figures;
  const size = productCount(gains.length);
  return {
    rms: levelOfPower(mixedEnergy(products, gains)),
    // Every block is mixed for it: only where somebody asks.
    get gatedRms() {
      if (!blocks) return null;
      const powers = Float64Array.from({ length: blocks.length / size }, (_, i) =>
        mixedEnergy(blocks, gains, i * size),
      );
      return levelOfPower(gated(powers).power);
    },
  };
};
