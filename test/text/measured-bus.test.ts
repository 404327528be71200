import { describe, expect, it } from "vitest";
import { describeMeasured } from "../../src/text/measured-bus";

const MEASURED = {
  at: "2026-05-04T18:20:00.000Z",
  from: "mixer",
  seconds: 95,
  rms: [-24.5, -25],
  peak: [-8.5, -9],
  truePeak: [-8, -8.8],
} as const;
const PLANNED = { average: [-20, -20.5], likely: [-6, -6] } as const;

describe("what is said of measured levels of a bus", () => {
  it("is when, where and over how long, and what can be compared whatever the gain", () => {
    expect(describeMeasured(MEASURED, "4 May 2026, 18:20", MEASURED.rms, PLANNED)).toMatchSnapshot();
  });

  it.each([
    ["a silent side", { ...MEASURED, peak: [-8.5, Number.NEGATIVE_INFINITY] as const }, PLANNED],
    ["a level nobody entered", MEASURED, { ...PLANNED, average: [null, null] as const }],
  ])("compares nothing with %s", (_, measured, planned) => {
    expect(describeMeasured(measured, "4 May 2026, 18:20", MEASURED.rms, planned)).toHaveLength(1);
  });
});
