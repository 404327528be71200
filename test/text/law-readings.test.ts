import { expect, it } from "vitest";
import { identifyLaw, type ReadingPoint } from "../../src/core/pan/identify";
import { describeIdentified, describeLawFit, formatLawFit } from "../../src/text/law-readings";
import { levelAt } from "../core/pan/at-reading";

const DESK = { panStyle: "steps", panSteps: 30 } as const;
const SINE = { law: "sine", centreDb: 0, reference: "sides" } as const;
const CENTRE: ReadingPoint = { pan: 0, side: "left" };
const HALF: ReadingPoint = { pan: -0.5, side: "right" };
const read = (at: ReadingPoint, off = 0) => ({ at, level: -18 + levelAt(SINE, at) + off, resolution: 0.1 });
const said = (...readings: ReturnType<typeof read>[]) => {
  const found = identifyLaw(readings);
  return describeIdentified(found, readings.length, DESK);
};

it("what readings leave is held", () => {
  expect(said()).toEqual([
    "Enter at least two readings.",
    "Read next: before the pan, at the channel’s own meter.",
  ]);
  expect(said(read("before pan"), read(CENTRE))).toEqual([
    "2 laws fit: “Constant power, sin/cos, unity hard-panned” and “Constant power, square root, unity hard-panned”.",
    "Read next: R of the bus, with the pan at L15.",
  ]);
  expect(said(read("before pan"), read(CENTRE), read(HALF))).toEqual([
    "Constant power, sin/cos, unity hard-panned: only this fits.",
  ]);
  expect(said(read("before pan"), read(CENTRE), read(HALF), read({ pan: -1, side: "left" }, 9))).toEqual([
    "No law fits these readings.",
    "Reading 4 contradicts the others: read it again.",
  ]);
});

it("each law beside the readings is held", () => {
  const { ranked } = identifyLaw([read("before pan"), read(CENTRE), read(HALF)]);
  expect(
    ranked.slice(0, 4).map((fit) => `${formatLawFit(fit)} | ${describeLawFit(fit)}`),
  ).toMatchInlineSnapshot(`
    [
      "Constant power, sin/cos, unity hard-panned | fits",
      "Custom centre drop of 3.0 dB, unity hard-panned | fits",
      "−4.5 dB, mean of linear and sin/cos, unity hard-panned | ruled out: 1.7 dB off",
      "Constant power, square root, unity hard-panned | ruled out: 2.2 dB off",
    ]
  `);
});
