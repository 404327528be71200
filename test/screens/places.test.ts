import { expect, it } from "vitest";
import { PLACES } from "../../src/screens/state";
import { PLACES as WALKED } from "../tools/places.mjs";

it("the walks through every screen go to every screen", () => {
  expect(WALKED).toEqual(PLACES);
});
