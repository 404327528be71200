import { expect, it } from "vitest";
import { channelLevelsOf, contributionsAt } from "../../../src/core/headroom/contributions";
import { mixedChannelsOf } from "../../../src/core/mix/bus";
import type { Outlet } from "../../../src/core/model/units";
import { expectNear, TINY } from "../../near";
import { channel, onlyBus, setupOf } from "./setups";

it("says of each channel whether it arrives with its polarity switched", () => {
  const setup = setupOf(
    [
      channel("snare"),
      channel("kick", { inverted: true }),
      channel("hat", { pan: 1 }),
      channel("keys", { lines: 2 }),
    ],
    { bus: { sideInverted: [false, true] } },
  );
  const parts = mixedChannelsOf(setup, onlyBus(setup));
  const strengths = parts.map((p) => channelLevelsOf(p.channel, 1));
  const polarities = (outlet: Outlet) =>
    Object.fromEntries(contributionsAt(parts, strengths, outlet).map((a) => [a.part.channel.id, a.polarity]));
  expect(polarities("left")).toMatchObject({ snare: 1, kick: -1, keys: 1 });
  expect(polarities("right")).toMatchObject({ snare: -1, kick: 1, hat: -1, keys: -1 });
  // One channel arrives as it is and the other switched, equally strong: neither.
  expect(polarities("mono")).toMatchObject({ hat: -1, keys: 0 });
});

it("a channel whose weaker channel is switched arrives as it is by what is left of it", () => {
  const setup = setupOf([channel("keys", { lines: 2 })], {
    bus: { sideInverted: [false, true], sideTrim: [0, 20 * Math.log10(0.25)] },
  });
  const parts = mixedChannelsOf(setup, onlyBus(setup));
  const [arrival] = contributionsAt(
    parts,
    parts.map((p) => channelLevelsOf(p.channel, 1)),
    "mono",
  );
  expectNear(arrival?.polarity ?? 0, (1 - 0.25) / (1 + 0.25), TINY);
});
