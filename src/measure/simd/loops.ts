/*
 * The loops of core/measure/loops.ts in AssemblyScript, two numbers at a time. What they do is told there; every sum is
 * built up in the order of the plain code, so both come to the same to the last bit. Pointers are in bytes.
 */

/** What brings the top of a 32-bit word to full scale 1: 2⁻³¹. */
const SCALE: f64 = 1.0 / 2147483648.0;
/** Bytes of one number, and of the two that are taken at a time. */
const ONE: usize = 8;
const TWO: usize = 16;

function sumOf(two: v128): f64 {
  return f64x2.extract_lane(two, 0) + f64x2.extract_lane(two, 1);
}

function largestOf(two: v128): f64 {
  return max(f64x2.extract_lane(two, 0), f64x2.extract_lane(two, 1));
}

/** Four samples of three bytes, each at the top of a word of four, so that its sign is the word's. */
function atTop(bytes: v128): v128 {
  const nothing = f64x2.splat(0);
  return v128.shuffle<u8>(bytes, nothing, 16, 0, 1, 2, 16, 3, 4, 5, 16, 6, 7, 8, 16, 9, 10, 11);
}

/** @param count of the numbers at each of a, b, c and d */
export function square(out: usize, a: usize, b: usize, c: usize, d: usize, count: i32): void {
  let ac = f64x2.splat(0);
  let ad = f64x2.splat(0);
  let bc = f64x2.splat(0);
  let bd = f64x2.splat(0);
  const end = a + <usize>(count >> 1) * TWO;
  for (; a < end; a += TWO, b += TWO, c += TWO, d += TWO) {
    const s = v128.load(a);
    const t = v128.load(b);
    const u = v128.load(c);
    const v = v128.load(d);
    ac = f64x2.add(ac, f64x2.mul(s, u));
    ad = f64x2.add(ad, f64x2.mul(s, v));
    bc = f64x2.add(bc, f64x2.mul(t, u));
    bd = f64x2.add(bd, f64x2.mul(t, v));
  }
  // Where one is left over, the other lane is 0 and changes nothing.
  const odd = count & 1;
  const s: f64 = odd ? load<f64>(a) : 0;
  const t: f64 = odd ? load<f64>(b) : 0;
  const u: f64 = odd ? load<f64>(c) : 0;
  const v: f64 = odd ? load<f64>(d) : 0;
  store<f64>(out, sumOf(ac) + s * u);
  store<f64>(out + ONE, sumOf(ad) + s * v);
  store<f64>(out + 2 * ONE, sumOf(bc) + t * u);
  store<f64>(out + 3 * ONE, sumOf(bd) + t * v);
}

/** @param count of the numbers at x */
export function scan(out: usize, x: usize, count: i32): void {
  let pq = f64x2.splat(0);
  let rs = f64x2.splat(0);
  let top = f64x2.splat(0);
  let topToo = f64x2.splat(0);
  const whole = x + <usize>(count >> 2) * 2 * TWO;
  const end = x + <usize>count * ONE;
  for (; x < whole; x += 2 * TWO) {
    const ab = v128.load(x);
    const cd = v128.load(x + TWO);
    pq = f64x2.add(pq, ab);
    rs = f64x2.add(rs, cd);
    top = f64x2.pmax(top, f64x2.abs(ab));
    topToo = f64x2.pmax(topToo, f64x2.abs(cd));
  }
  for (; x < end; x += ONE) {
    const a = v128.load64_zero(x);
    pq = f64x2.add(pq, a);
    top = f64x2.pmax(top, f64x2.abs(a));
  }
  store<f64>(out, sumOf(f64x2.add(pq, rs)));
  store<f64>(out + ONE, largestOf(f64x2.pmax(top, topToo)));
}

/** @param count of the numbers at x */
export function add(out: usize, x: usize, gain: f64, count: i32): void {
  const gains = f64x2.splat(gain);
  const whole = x + <usize>(count >> 1) * TWO;
  for (; x < whole; x += TWO, out += TWO)
    v128.store(out, f64x2.add(v128.load(out), f64x2.mul(gains, v128.load(x))));
  if (count & 1) store<f64>(out, load<f64>(out) + gain * load<f64>(x));
}

/**
 * @param count of the numbers at x
 * @param run numbers that share one look; even
 */
export function runs(out: usize, x: usize, count: i32, run: i32): void {
  const end = x + <usize>count * ONE;
  for (; x < end; out += TWO) {
    const stop = min(end, x + <usize>run * ONE);
    let near = f64x2.splat(0);
    let step = f64x2.splat(0);
    for (; x + ONE < stop; x += TWO) {
      const ab = v128.load(x);
      near = f64x2.pmax(near, f64x2.abs(ab));
      step = f64x2.pmax(step, f64x2.abs(f64x2.sub(ab, v128.load(x - ONE))));
    }
    if (x < stop) {
      const a = v128.load64_zero(x);
      near = f64x2.pmax(near, f64x2.abs(a));
      step = f64x2.pmax(step, f64x2.abs(f64x2.sub(a, v128.load64_zero(x - ONE))));
      x += ONE;
    }
    store<f64>(out, largestOf(near));
    store<f64>(out + ONE, largestOf(step));
  }
}

/** @param count of the numbers at x: a multiple of four */
export function exponentialAverages(averages: usize, x: usize, count: i32): void {
  let now = v128.load(averages);
  let largest = v128.load(averages + TWO);
  const share = v128.load(averages + 2 * TWO);
  const w1 = v128.load(averages + 3 * TWO);
  const w2 = v128.load(averages + 4 * TWO);
  const w3 = v128.load(averages + 5 * TWO);
  const w4 = v128.load(averages + 6 * TWO);
  const end = x + <usize>count * ONE;
  for (; x < end; x += 2 * TWO) {
    const ab = f64x2.mul(v128.load(x), v128.load(x));
    const cd = f64x2.mul(v128.load(x + TWO), v128.load(x + TWO));
    const a = v128.shuffle<f64>(ab, ab, 0, 0);
    const b = v128.shuffle<f64>(ab, ab, 1, 1);
    const c = v128.shuffle<f64>(cd, cd, 0, 0);
    const d = v128.shuffle<f64>(cd, cd, 1, 1);
    const early = f64x2.add(f64x2.mul(w3, a), f64x2.mul(w2, b));
    const late = f64x2.add(f64x2.mul(w1, c), d);
    const next = f64x2.add(f64x2.mul(w4, now), f64x2.mul(share, f64x2.add(early, late)));
    // Each average for itself, as in the plain code.
    const rises = f64x2.gt(next, f64x2.mul(largest, w3));
    if (v128.any_true(rises)) {
      const one = f64x2.add(f64x2.mul(w1, now), f64x2.mul(share, a));
      const two = f64x2.add(f64x2.mul(w1, one), f64x2.mul(share, b));
      const three = f64x2.add(f64x2.mul(w1, two), f64x2.mul(share, c));
      const most = f64x2.pmax(f64x2.pmax(largest, one), f64x2.pmax(f64x2.pmax(two, three), next));
      largest = v128.bitselect(most, largest, rises);
    }
    now = next;
  }
  v128.store(averages, now);
  v128.store(averages + TWO, largest);
}

/**
 * Samples of three bytes as numbers; a few bytes behind them may be read too.
 * @param count of the samples at `bytes`
 */
export function unpack24(out: usize, bytes: usize, count: i32): void {
  const scale = f64x2.splat(SCALE);
  const whole = out + <usize>(count >> 2) * 2 * TWO;
  const end = out + <usize>count * ONE;
  for (; out < whole; out += 2 * TWO, bytes += 12) {
    const words = atTop(v128.load(bytes));
    v128.store(out, f64x2.mul(scale, f64x2.convert_low_i32x4_s(words)));
    const high = v128.shuffle<f64>(words, words, 1, 1);
    v128.store(out + TWO, f64x2.mul(scale, f64x2.convert_low_i32x4_s(high)));
  }
  for (; out < end; out += ONE, bytes += 3) {
    const first = f64x2.mul(scale, f64x2.convert_low_i32x4_s(atTop(v128.load(bytes))));
    store<f64>(out, f64x2.extract_lane(first, 0));
  }
}
