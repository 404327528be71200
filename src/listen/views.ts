import { mixedEnergy, type Products } from "../core/measure/covariance";
import type { Id } from "../core/model/setup";
import type { Sides } from "../core/model/units";
import type { Image } from "../core/stereo/image";

/** Who is listened as. */
export type ViewName = "foh" | "now" | "repaired";

/** Gains of every voice into the left and right ear, in the order of the voices. */
export type ViewGains = readonly Sides[];

/** All three, switched between while they play. */
export type Views = { readonly [name in ViewName]: ViewGains };

/** Gains of voices that stand for one channel each; a channel that the listener does not get is silent. */
export const gainsOf = (image: Pick<Image, "rows">, channels: readonly Id[]): ViewGains =>
  channels.map((id) => image.rows.find((row) => row.channel === id)?.sides ?? [0, 0]);

/** Energy of both ears together. */
const energyOf = (gains: ViewGains, products: Products): number =>
  mixedEnergy(
    products,
    gains.map(([l]) => l),
  ) +
  mixedEnergy(
    products,
    gains.map(([, r]) => r),
  );

/** A view so far below the loudest, in energy, is silent: what is left where voices cancel out is rounding. */
const SILENT = 1e-10;

/**
 * Brings the three views to one loudness, so that the louder one does not win: all to the energy of the softest.
 * None is raised; a silent view is left as it is and does not count.
 * @param products mean products of each two voices, so that what voices share is reckoned as it adds up
 */
export const levelled = (views: Views, products: Products): Views => {
  const all = Object.values(views).map((gains) => energyOf(gains, products));
  const least = SILENT * Math.max(...all);
  const softest = Math.min(...all.filter((e) => e > least));
  const bring = (gains: ViewGains): ViewGains => {
    const energy = energyOf(gains, products);
    const by = energy > least ? Math.sqrt(softest / energy) : 1;
    return gains.map(([l, r]) => [l * by, r * by]);
  };
  return { foh: bring(views.foh), now: bring(views.now), repaired: bring(views.repaired) };
};
