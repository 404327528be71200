import { expect, it } from "vitest";
import { sumFigures } from "../../../src/core/sum/figures";
import { expectNear, TINY } from "../../near";
import { onlySum, recordingOf, setupOf, source } from "./setups";

it("a recording says nothing of two sources where the level of one is not known", () => {
  const correlated = (level: number | null) => {
    const setup = setupOf([source("snare"), source("hat", { level })], {
      recording: recordingOf(["snare", "hat"], 0.5),
    });
    return sumFigures(setup, onlySum(setup)).legs[0].correlated;
  };
  expect(correlated(-20)).not.toBeNull();
  expect(correlated(null)).toBeNull();
});

it("in the fold a source whose channels cancel has nothing in common with the others", () => {
  const setup = setupOf([source("hat", { pan: -1 }), source("keys", { channels: 2 })], {
    recording: recordingOf(["hat", "keys"], 0.4),
    sum: { legInverted: [false, true] },
  });
  const { legs, mono } = sumFigures(setup, onlySum(setup));
  // The hat and each channel of the keys at −20 dBFS.
  expectNear(mono.correlated ?? 0, -20 + 10 * Math.log10(1 + 2), TINY);
  expectNear(legs[0].correlated ?? 0, -20 + 10 * Math.log10(1 + 1 + 2 * 0.4), TINY);
});
