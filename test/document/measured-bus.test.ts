import { describe, expect, it } from "vitest";
import type { BusMeasurement } from "../../src/core/model/setup";
import { duplicateBus } from "../../src/document/commands/buses";
import { forgetMeasuredBus, keepMeasuredBus } from "../../src/document/commands/measured-bus";
import { compareSetups } from "../../src/document/compare";
import { handOver, readHandOver } from "../../src/document/hand-over";
import { printSetup, readSetup, readSetupText } from "../../src/document/read-setup";
import { describeDifference } from "../../src/text/compare";
import { bandSetup } from "./band";

const MEASURED: BusMeasurement = {
  at: "2026-05-04T18:20:00.000Z",
  from: "bus",
  seconds: 95,
  rms: [-24.5, -25],
  peak: [-8.25, Number.NEGATIVE_INFINITY],
  truePeak: [-8, Number.NEGATIVE_INFINITY],
};
const plain = bandSetup();
const kept = keepMeasuredBus("m1", MEASURED).apply(plain);

describe("measured levels of a bus", () => {
  it("are kept with the bus and nowhere else, and forgotten without a trace", () => {
    expect(kept.buses[0]?.measured).toEqual(MEASURED);
    expect({ ...kept, buses: plain.buses }).toEqual(plain);
    expect(forgetMeasuredBus("m1").apply(kept)).toEqual(plain);
    expect(forgetMeasuredBus("m1").apply(plain)).toBe(plain);
  });

  it("are in the file, silence too, and read again without a word", () => {
    expect(readSetupText(printSetup(kept))).toEqual({ ok: true, file: kept, notes: [] });
  });

  it("are left out where they have no date, and mended where a figure is none", () => {
    const withMeasured = (measured: unknown): unknown => {
      const raw = JSON.parse(printSetup(plain));
      raw.buses[0].measured = measured;
      return raw;
    };
    const undated = readSetup(withMeasured({ ...MEASURED, at: "yesterday" }));
    expect(undated.ok && undated.file).toEqual(plain);
    expect(undated.ok && undated.notes).toEqual([{ code: "no date", at: "buses[0].measured" }]);
    const odd = readSetup(
      withMeasured({ ...MEASURED, rms: ["loud", -25], peak: [-8.25, null], truePeak: [-8, null] }),
    );
    expect(odd.ok && odd.file.buses[0]?.measured?.rms).toEqual([Number.NEGATIVE_INFINITY, -25]);
    expect(odd.ok && odd.notes).toHaveLength(1);
  });

  it("are not those of a copy of the bus, and no helper’s business", () => {
    const [, copy] = duplicateBus("m1").apply(kept).buses;
    expect(copy).not.toHaveProperty("measured");
    const handed = readHandOver(JSON.parse(JSON.stringify(handOver(kept, "k1", "2026-05-04T19:00:00.000Z"))));
    expect(handed.ok && handed.file.buses[0]).not.toHaveProperty("measured");
  });

  it("are told where two setups differ", () => {
    const comparison = compareSetups(plain, kept);
    expect(comparison.differences.map((one) => describeDifference(one, comparison))).toEqual([
      "Drums: measured 2026-05-04 (RMS L −24.5, R −25.0 dBFS, peak L −8.3, R −∞ dBFS) instead of not",
    ]);
    expect(compareSetups(kept, kept).differences).toEqual([]);
  });
});
