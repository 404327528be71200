import { expect, it } from "vitest";
import { partsOf } from "../../../src/core/mix";
import { arrivalsAt, strengthOf } from "../../../src/core/sum/arrivals";
import type { Outlet } from "../../../src/core/units";
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
  const signs = (outlet: Outlet) =>
    Object.fromEntries(arrivalsAt(parts, strengths, outlet).map((a) => [a.part.source.id, a.sign]));
  expect(signs("left")).toMatchObject({ snare: 1, kick: -1, keys: 1 });
  expect(signs("right")).toMatchObject({ snare: -1, kick: 1, hat: -1, keys: -1 });
  // One channel arrives as it is and the other switched: not switched as a whole.
  expect(signs("mono")).toMatchObject({ hat: -1, keys: 1 });
});
