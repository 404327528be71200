import fc from "fast-check";
import { expect, it } from "vitest";
import { lineKey, linePlace } from "../../src/document/line-place";

it("a place of the line check is read back from its key, whatever the id of the musician", () => {
  fc.assert(
    fc.property(
      fc.nat({ max: 999 }),
      fc.option(fc.string({ minLength: 1, unit: "binary" }), { nil: null }),
      (index, listener) => {
        expect(linePlace(lineKey({ index, listener }))).toEqual({ index, listener });
      },
    ),
  );
});

it.each(["", "x", "-1", "01", "1000", "3 ", " 3", "3l2"])("%j is no place", (key) => {
  expect(linePlace(key)).toBeNull();
});
