import { levelOfPower } from "../level/decibels";
import type { Db, Gain } from "../model/units";
import { mixedEnergy, productCount } from "./covariance";
import type { MeasuredFigures } from "./figures";
import { playingPower } from "./gate";

/** Level of a mix, got without the samples. */
export interface MixLevel {
  readonly rms: Db;
  /** null where the stretches were too many to keep: measure again. */
  readonly playing: Db | null;
}

/**
 * Level of a measured recording through other gains, without reading it again: ΣΣ gi·gj·Pij is exact.
 * Peaks do not follow from products; they need the samples.
 * @param gains signed gain of each track
 */
export const levelThrough = (
  figures: Pick<MeasuredFigures, "products" | "stretches">,
  gains: readonly Gain[],
): MixLevel => {
  const { products, stretches } = figures;
  const size = productCount(gains.length);
  const powers =
    stretches &&
    Float64Array.from({ length: stretches.length / size }, (_, i) => mixedEnergy(stretches, gains, i * size));
  return {
    rms: levelOfPower(mixedEnergy(products, gains)),
    playing: powers && levelOfPower(playingPower(powers)),
  };
};
