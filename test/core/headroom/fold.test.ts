import { expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import { expectNear, printed } from "../../near";
import { channel, onlyBus, setupOf } from "./setups";

const figuresOf = (setup: ReturnType<typeof setupOf>) => busFigures(setup, onlyBus(setup));

it("a mono bus has no sides to fold", () =>
  expect(figuresOf(setupOf([channel("snare")], { bus: { stereo: false } })).folds).toEqual([]));

it("counts what folding does to a channel from its send, however loud that is", () => {
  const sends = [
    { channel: "centre", on: true, level: -10, tap: "post-fader" as const, pan: null },
    { channel: "side", on: true, level: 4, tap: "post-fader" as const, pan: null },
  ];
  const { folds } = figuresOf(setupOf([channel("centre"), channel("side", { pan: 1 })], { bus: { sends } }));
  expect(folds.map((f) => f.channel)).toEqual(["centre", "side"]);
  expectNear(folds[0]?.rise ?? null, 3.01, printed(2));
  expectNear(folds[1]?.rise ?? null, 0, 1e-9);
});

it("names first what one ear alone loses most of, in whatever order the channels are sent", () => {
  const pans = { shaker: 0.2, ride: 1, tom: 0.5, bell: 1, hat: -0.4, crash: -0.9 };
  const { oneEar } = figuresOf(setupOf(Object.entries(pans).map(([id, pan]) => channel(id, { pan }))));
  expect(oneEar.map((far) => far.map((f) => f.channel))).toEqual([
    ["ride", "bell", "tom", "shaker"],
    ["crash", "hat"],
  ]);
});
