import { describe, expect, it } from "vitest";
import { bandFrequency, POLES, weightingA, weightingC } from "../../../src/core/level/weighting";
import { expectNear } from "../../near";
import { POLES_PRINTED, TABLE_3 } from "../../tables/iec61672";

describe("IEC 61672-1:2013", () => {
  it("Table 3: weightings A and C round to the printed digit at all 34 exact frequencies", () => {
    expect(TABLE_3).toHaveLength(34);
    for (const [band, a, c] of TABLE_3) {
      const frequency = bandFrequency(band);
      expect(Math.round(weightingA(frequency) * 10) / 10 + 0, `A at ${frequency} Hz`).toBe(a);
      expect(Math.round(weightingC(frequency) * 10) / 10 + 0, `C at ${frequency} Hz`).toBe(c);
    }
  });

  it("Annex E: pole frequencies to the printed digits", () => {
    expect(POLES.map((f, i) => f.toFixed([2, 1, 1, 0][i] as number))).toEqual(POLES_PRINTED);
  });

  it("C is 3 dB down against 1 kHz at 10^1.5 and at 10^3.9 Hz", () => {
    expectNear(weightingC(10 ** 1.5), 10 * Math.log10(0.5), 1e-9);
    expectNear(weightingC(10 ** 3.9), 10 * Math.log10(0.5), 1e-9);
  });

  it("both are 0 dB at 1 kHz and let no steady pressure through", () => {
    expect([weightingA(1000), weightingC(1000)]).toEqual([0, 0]);
    expect([weightingA(0), weightingC(0)]).toEqual([-Infinity, -Infinity]);
  });
});
