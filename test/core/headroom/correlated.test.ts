import { expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import { expectNear, TINY } from "../../near";
import { channel, onlyBus, recordingOf, setupOf } from "./setups";

it("a recording says nothing of two channels where the level of one is not known", () => {
  const correlated = (level: number | null) => {
    const setup = setupOf([channel("snare"), channel("hat", { gatedRms: level })], {
      recording: recordingOf(["snare", "hat"], 0.5),
    });
    return busFigures(setup, onlyBus(setup)).sides[0].correlated;
  };
  expect(correlated(-20)).not.toBeNull();
  expect(correlated(null)).toBeNull();
});

it("in the fold a channel whose channels cancel has nothing in common with the others", () => {
  const setup = setupOf([channel("hat", { pan: -1 }), channel("keys", { lines: 2 })], {
    recording: recordingOf(["hat", "keys"], 0.4),
    bus: { sideInverted: [false, true] },
  });
  const { sides, mono } = busFigures(setup, onlyBus(setup));
  // The hat and each channel of the keys at −20 dBFS.
  expectNear(mono.correlated ?? 0, -20 + 10 * Math.log10(1 + 2), TINY);
  expectNear(sides[0].correlated ?? 0, -20 + 10 * Math.log10(1 + 1 + 2 * 0.4), TINY);
});
