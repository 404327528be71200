import { expect, it } from "vitest";
import { partsOf } from "../../../src/core/mix";
import { arrivalsAt, strengthOf } from "../../../src/core/sum/arrivals";
import type { Outlet } from "../../../src/core/units";
import { expectNear, TINY } from "../../near";
import { onlySum, setupOf, source } from "./setups";

it("says of each source whether it arrives with its polarity switched", () => {
  const setup = setupOf(
    [
      source("snare"),
      source("kick", { inverted: true }),
      source("hat", { pan: 1 }),
      source("keys", { channels: 2 }),
    ],
    { sum: { legInverted: [false, true] } },
  );
  const parts = partsOf(setup, onlySum(setup));
  const strengths = parts.map((p) => strengthOf(p.source));
  const polarities = (outlet: Outlet) =>
    Object.fromEntries(arrivalsAt(parts, strengths, outlet).map((a) => [a.part.source.id, a.polarity]));
  expect(polarities("left")).toMatchObject({ snare: 1, kick: -1, keys: 1 });
  expect(polarities("right")).toMatchObject({ snare: -1, kick: 1, hat: -1, keys: -1 });
  // One channel arrives as it is and the other switched, equally strong: neither.
  expect(polarities("mono")).toMatchObject({ hat: -1, keys: 0 });
});

it("a source whose weaker channel is switched arrives as it is by what is left of it", () => {
  const setup = setupOf([source("keys", { channels: 2 })], {
    sum: { legInverted: [false, true], legTrim: [0, 20 * Math.log10(0.25)] },
  });
  const parts = partsOf(setup, onlySum(setup));
  const [arrival] = arrivalsAt(
    parts,
    parts.map((p) => strengthOf(p.source)),
    "mono",
  );
  expectNear(arrival?.polarity ?? 0, (1 - 0.25) / (1 + 0.25), TINY);
});
