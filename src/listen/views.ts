import type { Image } from "../core/image";
import type { Id } from "../core/setup";
import type { Legs } from "../core/units";

/** Who is listened as. */
export type ViewName = "house" | "now" | "repaired";

/** Gains of every voice into the left and right ear, in the order of the voices. */
export type ViewGains = readonly Legs[];

/** All three, switched between while they play. */
export type Views = { readonly [name in ViewName]: ViewGains };

/** Gains of voices that stand for one source each; a source that the listener does not get is silent. */
export const gainsOf = (image: Pick<Image, "rows">, sources: readonly Id[]): ViewGains =>
  sources.map((id) => image.rows.find((row) => row.source === id)?.legs ?? [0, 0]);

/** Energy of both ears together, the voices taken as uncorrelated. */
const energyOf = (gains: ViewGains, powers: readonly number[]): number =>
  gains.reduce((sum, [l, r], i) => sum + (l * l + r * r) * (powers[i] ?? 0), 0);

/**
 * Brings the three views to one loudness, so that the louder one does not win: all to the energy of the softest.
 * None is raised; a silent view stays silent and does not count.
 * @param powers mean power of each voice
 */
export const levelled = (views: Views, powers: readonly number[]): Views => {
  const all = Object.values(views).map((gains) => energyOf(gains, powers));
  const softest = Math.min(...all.filter((e) => e > 0));
  const bring = (gains: ViewGains): ViewGains => {
    const energy = energyOf(gains, powers);
    const by = energy > 0 ? Math.sqrt(softest / energy) : 1;
    return gains.map(([l, r]) => [l * by, r * by]);
  };
  return { house: bring(views.house), now: bring(views.now), repaired: bring(views.repaired) };
};

/** Mean power of a voice's samples. */
export const powerOfSamples = (samples: Float32Array): number => {
  let sum = 0;
  for (const x of samples) sum += x * x;
  return samples.length === 0 ? 0 : sum / samples.length;
};
