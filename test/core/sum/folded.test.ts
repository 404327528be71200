import { expect, it } from "vitest";
import { sumFigures } from "../../../src/core/sum/figures";
import { expectNear, printed } from "../../near";
import { onlySum, setupOf, source } from "./setups";

const figuresOf = (setup: ReturnType<typeof setupOf>) => sumFigures(setup, onlySum(setup));

it("a mono sum has no legs to fold", () =>
  expect(figuresOf(setupOf([source("snare")], { sum: { stereo: false } })).folds).toEqual([]));

it("counts what folding does to a source from its send, however loud that is", () => {
  const sends = [
    { source: "centre", level: -10, pan: null },
    { source: "side", level: 4, pan: null },
  ];
  const { folds } = figuresOf(setupOf([source("centre"), source("side", { pan: 1 })], { sum: { sends } }));
  expect(folds.map((f) => f.source)).toEqual(["centre", "side"]);
  expectNear(folds[0]?.rise ?? null, 3.01, printed(2));
  expectNear(folds[1]?.rise ?? null, 0, 1e-9);
});

it("names first what one ear alone loses most of, in whatever order the sources are sent", () => {
  const pans = { shaker: 0.2, ride: 1, tom: 0.5, bell: 1, hat: -0.4, crash: -0.9 };
  const { oneEar } = figuresOf(setupOf(Object.entries(pans).map(([id, pan]) => source(id, { pan }))));
  expect(oneEar.map((far) => far.map((f) => f.source))).toEqual([
    ["ride", "bell", "tom", "shaker"],
    ["crash", "hat"],
  ]);
});
