import { type Loops, RUN } from "./loops";

const square: Loops["square"] = (out, a, b, c, d, from, to) => {
  let ac = 0;
  let ad = 0;
  let bc = 0;
  let bd = 0;
  let acOdd = 0;
  let adOdd = 0;
  let bcOdd = 0;
  let bdOdd = 0;
  let n = from;
  for (; n + 1 < to; n += 2) {
    const s = a[n] as number;
    const t = b[n] as number;
    const u = c[n] as number;
    const v = d[n] as number;
    ac += s * u;
    ad += s * v;
    bc += t * u;
    bd += t * v;
    const sOdd = a[n + 1] as number;
    const tOdd = b[n + 1] as number;
    const uOdd = c[n + 1] as number;
    const vOdd = d[n + 1] as number;
    acOdd += sOdd * uOdd;
    adOdd += sOdd * vOdd;
    bcOdd += tOdd * uOdd;
    bdOdd += tOdd * vOdd;
  }
  const left = n < to;
  const s = left ? (a[n] as number) : 0;
  const t = left ? (b[n] as number) : 0;
  const u = left ? (c[n] as number) : 0;
  const v = left ? (d[n] as number) : 0;
  out[0] = ac + acOdd + s * u;
  out[1] = ad + adOdd + s * v;
  out[2] = bc + bcOdd + t * u;
  out[3] = bd + bdOdd + t * v;
};

const scan: Loops["scan"] = (out, x, from, to) => {
  let top = 0;
  let p = 0;
  let q = 0;
  let r = 0;
  let s = 0;
  const whole = to - ((to - from) % 4);
  for (let i = from; i < whole; i += 4) {
    const a = x[i] as number;
    const b = x[i + 1] as number;
    const c = x[i + 2] as number;
    const d = x[i + 3] as number;
    if (Math.abs(a) > top) top = Math.abs(a);
    if (Math.abs(b) > top) top = Math.abs(b);
    if (Math.abs(c) > top) top = Math.abs(c);
    if (Math.abs(d) > top) top = Math.abs(d);
    p += a;
    q += b;
    r += c;
    s += d;
  }
  for (let i = whole; i < to; i += 1) {
    const sample = x[i] as number;
    if (Math.abs(sample) > top) top = Math.abs(sample);
    p += sample;
  }
  out[0] = p + r + (q + s);
  out[1] = top;
};

const add: Loops["add"] = (out, x, gain, from, to) => {
  for (let i = from, at = 0; i < to; i += 1, at += 1) out[at] = (out[at] as number) + gain * (x[i] as number);
};

const runs: Loops["runs"] = (out, x, from, to) => {
  for (let begin = from, at = 0; begin < to; begin += RUN, at += 2) {
    let near = 0;
    let step = 0;
    let last = x[begin - 1] as number;
    for (let i = begin; i < Math.min(to, begin + RUN); i += 1) {
      const sample = x[i] as number;
      if (Math.abs(sample) > near) near = Math.abs(sample);
      if (Math.abs(sample - last) > step) step = Math.abs(sample - last);
      last = sample;
    }
    out[at] = near;
    out[at + 1] = step;
  }
};

/** One of the two averages: 0 or 1. */
const exponentialAverage = (
  averages: Float64Array,
  which: number,
  x: Float64Array,
  from: number,
  to: number,
): void => {
  const kind = (at: number): number => averages[2 * at + which] as number;
  let now = kind(0);
  let largest = kind(1);
  const share = kind(2);
  const w1 = kind(3);
  const w2 = kind(4);
  const w3 = kind(5);
  const w4 = kind(6);
  for (let i = from; i < to; i += 4) {
    const a = (x[i] as number) * (x[i] as number);
    const b = (x[i + 1] as number) * (x[i + 1] as number);
    const c = (x[i + 2] as number) * (x[i + 2] as number);
    const d = (x[i + 3] as number) * (x[i + 3] as number);
    const end = w4 * now + share * (w3 * a + w2 * b + (w1 * c + d));
    if (end > largest * w3) {
      const one = w1 * now + share * a;
      const two = w1 * one + share * b;
      largest = Math.max(largest, one, two, w1 * two + share * c, end);
    }
    now = end;
  }
  averages[which] = now;
  averages[2 + which] = largest;
};

const exponentialAverages: Loops["exponentialAverages"] = (averages, x, from, to) => {
  exponentialAverage(averages, 0, x, from, to);
  exponentialAverage(averages, 1, x, from, to);
};

/** The loops in plain code, which run everywhere. */
export const PLAIN_LOOPS: Loops = {
  numbers: (length) => new Float64Array(length),
  square,
  scan,
  add,
  runs,
  exponentialAverages,
};
