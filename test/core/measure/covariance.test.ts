import { describe, expect, it } from "vitest";
import { productCount, productsOf, unrelatedProducts } from "../../../src/core/measure/covariance";
import { PLAIN_LOOPS } from "../../../src/core/measure/plain-loops";

describe("products of each two tracks", () => {
  it.each([1, 2, 3, 4])("of %d tracks fill their places and leave those behind them alone", (tracks) => {
    const rows = Array.from({ length: tracks }, (_, t) => new Float64Array(3).fill(t + 1));
    const size = productCount(tracks);
    const out = new Float64Array(size + 2 * tracks + 3).fill(-1);
    productsOf(PLAIN_LOOPS, rows)(out, 0, 3);
    const products = rows.flatMap((_, i) => rows.slice(0, i + 1).map((_, j) => 3 * (i + 1) * (j + 1)));
    expect([...out.subarray(0, size)]).toEqual(products);
    expect(new Set(out.subarray(size))).toEqual(new Set([-1]));
  });
});

it("signals that share nothing: each with itself only, over so many samples", () => {
  const shared = Float32Array.of(1, -1);
  const signals = [shared, new Float32Array(4), Float32Array.of(0, 0, 0.5, 0), shared];
  expect([...unrelatedProducts(signals, 4)]).toEqual([0.5, 0, 0, 0, 0, 0.0625, 0, 0, 0, 0.5]);
  expect([...unrelatedProducts([new Float32Array(0)], 0)]).toEqual([0]);
});
