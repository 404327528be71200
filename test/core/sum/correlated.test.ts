import { expect, it } from "vitest";
import { sumFigures } from "../../../src/core/sum/figures";
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
