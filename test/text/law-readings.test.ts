import { expect, it } from "vitest";
import { identifyLaw } from "../../src/core/pan/identify";
import type { PanSettings } from "../../src/core/pan/laws";
import type { ReadingPoint } from "../../src/core/pan/reading";
import { describeIdentified, describeRuledOut, formatLawFit } from "../../src/text/law-readings";
import { levelAt } from "../core/pan/at-reading";

const DESK = { panStyle: "steps", panSteps: 30 } as const;
const SINE = { law: "sine", centreDb: 0, reference: "sides" } as const;
const LINEAR = { law: "linear", centreDb: 0, reference: "centre" } as const;
const OWN = { law: "custom", centreDb: 3.7, reference: "sides" } as const;
const CENTRE: ReadingPoint = { pan: 0, side: "left" };
const HARD: ReadingPoint = { pan: -1, side: "left" };
const HALF: ReadingPoint = { pan: -0.5, side: "right" };

/** Readings to a tenth of a dB of a channel at −18 dB, by points and by how much they are misread. */
const said = (desk: PanSettings, ...points: readonly (readonly [at: ReadingPoint, off?: number])[]) => {
  const readings = points.map(([at, off = 0]) => ({
    at,
    level: -18 + levelAt(desk, at) + off,
    resolution: 0.1,
  }));
  const found = identifyLaw(readings);
  const numbers = readings.map((_, index) => index + 1);
  return { ...found, says: describeIdentified(found, numbers, DESK).join(" ") };
};

it("what readings leave is held", () => {
  expect({
    "no reading": said(SINE).says,
    "a silent side": said(SINE, ["before pan"], [{ pan: -1, side: "right" }, 0]).says,
    "two fit": said(SINE, ["before pan"], [CENTRE]).says,
    "many fit": said(LINEAR, ["before pan"], [CENTRE]).says,
    "one fits, and a drop of the desk's own": said(SINE, ["before pan"], [CENTRE], [HALF]).says,
    "only one fits": said(LINEAR, ["before pan"], [HARD], [HALF]).says,
    "only the desk's own drop fits": said(OWN, ["before pan"], [CENTRE], [HALF]).says,
    "one is wrong": said(SINE, ["before pan"], [CENTRE], [HALF], [HARD, 9]).says,
    "two are wrong": said(SINE, ["before pan"], [CENTRE, 5], [HALF, -7], [HARD, 9]).says,
    "the meter is too coarse": describeIdentified(
      identifyLaw([
        { at: "before pan", level: -18, resolution: 3 } as const,
        ...[0, -1, -0.5, -0.75, -0.25].flatMap((pan) =>
          (["left", "right"] as const).map((side) => ({
            at: { pan, side },
            level: 3 * Math.round((-18 + levelAt(SINE, { pan, side })) / 3),
            resolution: 3,
          })),
        ),
      ]),
      Array.from({ length: 11 }, (_, index) => index + 1),
      DESK,
    ).join(" "),
  }).toMatchInlineSnapshot(`
    {
      "a silent side": "Reading 2 tells nothing: a hard pan leaves that side silent. Enter at least two readings.",
      "many fit": "6 laws fit: “Constant power, sin/cos (unity at centre)”, “Constant power, square root (unity at centre)”, “Linear (unity at centre)”, “−4.5 dB, mean of linear and sin/cos (unity at centre)” and 2 more. Read next: R of the bus, with the pan at L15.",
      "no reading": "Enter at least two readings.",
      "one fits, and a drop of the desk's own": "“Constant power, sin/cos (unity hard-panned)” fits. So does a custom centre drop of 3.0 dB.",
      "one is wrong": "No law fits these readings. Reading 4 contradicts the others: read it again.",
      "only one fits": "Only “Linear (unity at centre)” fits.",
      "only the desk's own drop fits": "Only “Custom centre drop, 3.7 dB (unity hard-panned)” fits.",
      "the meter is too coarse": "Reading 5 tells nothing: a hard pan leaves that side silent. 2 laws fit: “−4.5 dB, mean of linear and sin/cos (unity hard-panned)” and “Constant power, sin/cos (unity hard-panned)”. No other reading is likely to tell them apart: use the first.",
      "two are wrong": "No law fits these readings. Check that the tone is steady, and that fader and send are at 0 dB.",
      "two fit": "2 laws fit: “Constant power, sin/cos (unity hard-panned)” and “Constant power, square root (unity hard-panned)”. Read next: R of the bus, with the pan at L15.",
    }
  `);
});

it("each law beside the readings is held", () => {
  const { ranked } = said(SINE, ["before pan"], [CENTRE], [HALF]);
  expect(ranked.map((fit) => (fit.fits ? formatLawFit(fit) : describeRuledOut(fit)))).toMatchInlineSnapshot(`
    [
      "Constant power, sin/cos (unity hard-panned)",
      "Custom centre drop, 3.0 dB (unity hard-panned)",
      "−4.5 dB, mean of linear and sin/cos (unity hard-panned): 1.7 dB off",
      "Constant power, square root (unity hard-panned): 2.2 dB off",
      "Constant power, sin/cos (unity at centre): 2.9 dB off",
      "Linear (unity at centre): 2.9 dB off",
      "−4.5 dB, mean of linear and sin/cos (unity at centre): 2.9 dB off",
      "−4.5 dB, sin/cos to the power 1.5 (unity at centre): 2.9 dB off",
      "Linear (unity hard-panned): 3.6 dB off",
      "−4.5 dB, sin/cos to the power 1.5 (unity hard-panned): 4.1 dB off",
      "Cosine squared (unity at centre): 5.2 dB off",
      "Constant power, square root (unity at centre): 5.2 dB off",
      "Cosine squared (unity hard-panned): 8.2 dB off",
      "Custom centre drop (unity at centre): no drop fits",
    ]
  `);
});
