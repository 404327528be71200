import { expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { imagesOf } from "../../src/core/image";
import { partsOf } from "../../src/core/mix";
import { patchFigures } from "../../src/core/patch/figures";
import { earFigures } from "../../src/core/sum/ear";
import { sumFigures } from "../../src/core/sum/figures";
import { exampleSetup } from "../../src/document/example";

const ear = {
  unit: "dB/mW",
  sensitivity: 110,
  impedance: 16,
  sourceImpedance: 10,
  drive: 0.1,
  isolation: 20,
  stage: 105,
} as const;

it("gives every figure of its own door, for every sum and listener", () => {
  const setup = { ...exampleSetup(), ear };
  const figures = evaluate(setup);
  for (const sum of setup.sums) {
    expect(figures.parts.get(sum.id)).toEqual(partsOf(setup, sum));
    expect(figures.sums.get(sum.id)).toEqual(sumFigures(setup, sum));
  }
  expect(figures.images).toEqual(imagesOf(setup));
  expect(figures.images.map((i) => i.listener)).toEqual(setup.listeners.map((l) => l.id));
  expect(figures.patch).toEqual(patchFigures(setup));
  expect(figures.ear).toEqual(earFigures(ear));
  expect(evaluate(exampleSetup()).ear).toBeNull();
});

it("works each figure out once", () => {
  const figures = evaluate(exampleSetup());
  expect(figures.sums).toBe(figures.sums);
  expect(figures.images).toBe(figures.images);
  expect(figures.patch).toBe(figures.patch);
});

it("keeps a copy of a setup apart from the setup", () => {
  const setup = exampleSetup();
  const before = evaluate(setup).images;
  const muted = { ...setup, sources: setup.sources.map((s) => ({ ...s, muted: true })) };
  expect(evaluate(muted).images.every((i) => i.rows.length === 0)).toBe(true);
  expect(evaluate(setup).images).toEqual(before);
});
