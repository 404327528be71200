import type { Gain } from "../units";

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

/** Σ a·b of one pair of rows, with four running sums so that no addition waits for the last. */
const product = (a: Float64Array, b: Float64Array, from: number, to: number): number => {
  let p = 0;
  let q = 0;
  let r = 0;
  let s = 0;
  let i = from;
  for (; i + 3 < to; i += 4) {
    p += (a[i] as number) * (b[i] as number);
    q += (a[i + 1] as number) * (b[i + 1] as number);
    r += (a[i + 2] as number) * (b[i + 2] as number);
    s += (a[i + 3] as number) * (b[i + 3] as number);
  }
  for (; i < to; i += 1) p += (a[i] as number) * (b[i] as number);
  return p + q + r + s;
};

/** Σ of row a and of row b with the rows c and d: four products for four reads. */
const addSquare = (
  out: Products,
  rows: readonly Float64Array[],
  i: number,
  j: number,
  from: number,
  to: number,
): void => {
  const a = rows[i] as Float64Array;
  const b = rows[i + 1] as Float64Array;
  const c = rows[j] as Float64Array;
  const d = rows[j + 1] as Float64Array;
  let ac = 0;
  let ad = 0;
  let bc = 0;
  let bd = 0;
  for (let n = from; n < to; n += 1) {
    const s = a[n] as number;
    const t = b[n] as number;
    const u = c[n] as number;
    const v = d[n] as number;
    ac += s * u;
    ad += s * v;
    bc += t * u;
    bd += t * v;
  }
  out[productAt(i, j)] = ac;
  out[productAt(i, j + 1)] = ad;
  out[productAt(i + 1, j)] = bc;
  out[productAt(i + 1, j + 1)] = bd;
};

/**
 * Sums of products of each two tracks over x[from…to), written to `out`.
 * @param rows samples of each track
 */
export const productsOf = (out: Products, rows: readonly Float64Array[], from: number, to: number): void => {
  const even = rows.length - (rows.length % 2);
  for (let i = 0; i < even; i += 2) {
    for (let j = 0; j < i; j += 2) addSquare(out, rows, i, j, from, to);
    const a = rows[i] as Float64Array;
    const b = rows[i + 1] as Float64Array;
    out[productAt(i, i)] = product(a, a, from, to);
    out[productAt(i + 1, i)] = product(a, b, from, to);
    out[productAt(i + 1, i + 1)] = product(b, b, from, to);
  }
  if (even === rows.length) return;
  const last = rows[even] as Float64Array;
  for (let j = 0; j <= even; j += 1)
    out[productAt(even, j)] = product(last, rows[j] as Float64Array, from, to);
};

/**
 * Energy of a mix: ΣΣ gi·gj·Pij, never below 0.
 * @param gains signed gain of each track
 * @param at where the products begin in a longer array
 */
export const mixedEnergy = (products: Products, gains: readonly Gain[], at = 0): number => {
  let energy = 0;
  let place = at;
  for (let i = 0; i < gains.length; i += 1) {
    const g = gains[i] as Gain;
    let row = 0;
    for (let j = 0; j < i; j += 1) row += (gains[j] as Gain) * (products[place + j] as number);
    energy += g * (2 * row + g * (products[place + i] as number));
    place += i + 1;
  }
  return Math.max(0, energy);
};

/** Correlation of each two tracks, row by row: −1…1; 1 with itself; 0 where one of them is silent. */
export const correlationOf = (products: Products, tracks: number): number[][] =>
  Array.from({ length: tracks }, (_, i) =>
    Array.from({ length: tracks }, (_, j) => {
      if (i === j) return 1;
      const both = Math.sqrt((products[productAt(i, i)] as number) * (products[productAt(j, j)] as number));
      return both === 0 ? 0 : Math.max(-1, Math.min(1, (products[productAt(i, j)] as number) / both));
    }),
  );
