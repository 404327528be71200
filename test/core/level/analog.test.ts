import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  convertRms,
  dbuOfDbv,
  dbuOfVolts,
  dbvOfDbu,
  dbvOfVolts,
  fullScaleSine,
  outputDbuOf,
  peakOfSine,
  rmsBy,
  voltsOfDbu,
  voltsOfDbv,
} from "../../../src/core/level/analog";
import { expectNear, printed } from "../../near";
import { ALIGNMENTS, CONSUMER_LEVEL, DBU, WAVEFORMS } from "../../tables/analogue-levels";

const level = fc.double({ min: -200, max: 60, noNaN: true });

describe("dBu, dBV and volts", () => {
  it("0 dBu is a milliwatt in 600 Ω", () => expectNear(voltsOfDbu(0) ** 2 / 600, 1e-3, 1e-18));

  it.each(DBU)("%d dBu", (dbu, rms, peak, dbv) => {
    expectNear(voltsOfDbu(dbu) / rms, 1, 1e-14);
    expectNear(peakOfSine(voltsOfDbu(dbu)) / peak, 1, 1e-14);
    expectNear(dbvOfDbu(dbu), dbv, 1e-12);
    expectNear(dbvOfVolts(rms), dbv, 1e-12);
    expectNear(dbuOfVolts(rms), dbu, 1e-12);
  });

  it("−10 dBV is −7.78 dBu", () => {
    expectNear(dbuOfDbv(CONSUMER_LEVEL.dbv), CONSUMER_LEVEL.dbu, printed(2));
  });

  it("come back", () => {
    fc.assert(
      fc.property(level, (l) => {
        expectNear(dbuOfVolts(voltsOfDbu(l)), l, 1e-11);
        expectNear(dbvOfVolts(voltsOfDbv(l)), l, 1e-11);
        expectNear(dbuOfDbv(dbvOfDbu(l)), l, 1e-12);
      }),
    );
    expect([voltsOfDbu(-Infinity), dbuOfVolts(0), dbuOfDbv(-Infinity)]).toEqual([0, -Infinity, -Infinity]);
  });
});

describe("dBFS rms", () => {
  it.each(WAVEFORMS)("of a full-scale %s in both conventions", (_, aes17, sample) => {
    expectNear(convertRms(sample, "sample", "aes17"), aes17, 1e-12);
    expectNear(convertRms(aes17, "aes17", "sample"), sample, 1e-12);
    expect(convertRms(sample, "sample", "sample")).toBe(sample);
    expect(convertRms(aes17, "aes17", "aes17")).toBe(aes17);
  });

  it("of a full-scale sine", () => {
    expectNear(fullScaleSine("sample"), -3.01, printed(2));
    expect(fullScaleSine("aes17")).toBe(0);
  });

  it("in words", () => {
    expect(rmsBy("sample")).toEqual({ sine: "−3.01 dBFS", by: "samples" });
    expect(rmsBy("aes17")).toEqual({ sine: "0 dBFS", by: "AES17 and IEC 61606" });
  });

  it.each(ALIGNMENTS)("alignment of %d dBu at %d dBFS", (dbu, dbfs, atFullScale) => {
    expectNear(outputDbuOf(dbfs, "aes17", atFullScale), dbu, 1e-12);
    expectNear(outputDbuOf(dbfs + fullScaleSine("sample"), "sample", atFullScale), dbu, 1e-12);
  });
});
