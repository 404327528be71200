import type { Gain } from "../model/units";
import type { Loops } from "./loops";

/**
 * Products of each two tracks, packed row by row: (0,0) (1,0) (1,1) (2,0) …
 * From them the energy of every mix of the tracks follows without the samples.
 */
export type Products = Float64Array;

/** How many products n tracks have. */
export const productCount = (tracks: number): number => (tracks * (tracks + 1)) / 2;

/** Place of the product of tracks i and j. */
export const productAt = (i: number, j: number): number =>
  i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;

/**
 * Makes what sums products of each two tracks over x[from…to), written to `out`: two tracks with two at a time.
 * @param rows samples of each track, in the memory of the loops
 */
export const productsOf = (loops: Loops, rows: readonly Float64Array[]) => {
  const four = loops.numbers(4);
  /** The last of an odd number stands in for the one that follows it. */
  const row = (t: number): Float64Array => rows[Math.min(t, rows.length - 1)] as Float64Array;
  return (out: Products, from: number, to: number): void => {
    for (let i = 0; i < rows.length; i += 2) {
      for (let j = 0; j <= i; j += 2) {
        loops.square(four, row(i), row(i + 1), row(j), row(j + 1), from, to);
        for (let at = 0; at < 4; at += 1) {
          const a = i + (at >> 1);
          const b = j + (at & 1);
          if (a < rows.length && b < rows.length) out[productAt(a, b)] = four[at] as number;
        }
      }
    }
  };
};

/**
 * Mean products over so many samples of signals that share nothing: each with itself only. One that is shorter is
 * silent for the rest.
 */
export const unrelatedProducts = (signals: readonly ArrayLike<number>[], length: number): Products => {
  const products = new Float64Array(productCount(signals.length));
  const energies = new Map<ArrayLike<number>, number>();
  signals.forEach((samples, s) => {
    let energy = energies.get(samples) ?? 0;
    if (!energies.has(samples))
      for (let i = 0; i < samples.length; i += 1) energy += (samples[i] as number) ** 2;
    energies.set(samples, energy);
    products[productAt(s, s)] = length === 0 ? 0 : energy / length;
  });
  return products;
};

/**
 * What of a mix is not rounding, as a share of the energies that go in. Sums of products in double precision are better
 * than this over hours, and 24 bits hold no more of what plays at −24 dBFS.
 */
const EXACT_TO = 10 ** (-120 / 10);

/**
 * Energy of a mix: ΣΣ gi·gj·Pij; 0 where all but rounding cancels.
 * @param gains signed gain of each track
 * @param at where the products begin in a longer array
 */
export const mixedEnergy = (products: Products, gains: readonly Gain[], at = 0): number => {
  let energy = 0;
  let into = 0;
  let place = at;
  for (let i = 0; i < gains.length; i += 1) {
    const g = gains[i] as Gain;
    let row = 0;
    for (let j = 0; j < i; j += 1) row += (gains[j] as Gain) * (products[place + j] as number);
    const own = g * g * (products[place + i] as number);
    into += own;
    energy += 2 * g * row + own;
    place += i + 1;
  }
  return energy > EXACT_TO * into ? energy : 0;
};

/**
 * Correlation of two mixes, −1…1; 0 where one of them is silent.
 * @param a signed gain of each track into the one
 * @param b and into the other
 */
export const correlationOf = (products: Products, a: readonly Gain[], b: readonly Gain[]): number => {
  const size = Math.sqrt(mixedEnergy(products, a) * mixedEnergy(products, b));
  if (size === 0) return 0;
  let both = 0;
  a.forEach((g, i) => {
    if (g !== 0)
      b.forEach((h, j) => {
        both += g * h * (products[productAt(i, j)] as number);
      });
  });
  return Math.max(-1, Math.min(1, both / size));
};
