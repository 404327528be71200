import { expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { earphoneFigures } from "../../src/core/headroom/earphone";
import { busFigures } from "../../src/core/headroom/figures";
import { mixedChannelsOf } from "../../src/core/mix/bus";
import { imagesOf } from "../../src/core/stereo/image";
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

it("gives every figure of its own door, for every bus and listener", () => {
  const setup = { ...exampleSetup(), earphone: ear };
  const figures = evaluate(setup);
  for (const bus of setup.buses) {
    expect(figures.mixed.get(bus.id)).toEqual(mixedChannelsOf(setup, bus));
    expect(figures.buses.get(bus.id)).toEqual(busFigures(setup, bus));
  }
  expect(figures.images).toEqual(imagesOf(setup));
  expect(figures.images.map((i) => i.listener)).toEqual(setup.listeners.map((l) => l.id));
  expect(figures.earphone).toEqual(earphoneFigures(ear));
  expect(evaluate(exampleSetup()).earphone).toBeNull();
});

it("works each figure out once", () => {
  const figures = evaluate(exampleSetup());
  expect(figures.buses).toBe(figures.buses);
  expect(figures.images).toBe(figures.images);
});

it("keeps a copy of a setup apart from the setup", () => {
  const setup = exampleSetup();
  const before = evaluate(setup).images;
  const muted = { ...setup, channels: setup.channels.map((s) => ({ ...s, muted: true })) };
  expect(evaluate(muted).images.every((i) => i.rows.length === 0)).toBe(true);
  expect(evaluate(setup).images).toEqual(before);
});
