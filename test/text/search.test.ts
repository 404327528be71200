import { expect, it } from "vitest";
import { SEARCHES } from "../../src/core/searches";
import { describeWhatIfs, SEARCH_ENDS, SEARCH_LABELS } from "../../src/text/search";

it("the wording of the searches is held", () => {
  expect(Object.keys(SEARCH_LABELS)).toEqual(Object.keys(SEARCHES));
  expect(
    `\n${[...Object.values(SEARCH_LABELS), ...Object.values(SEARCH_ENDS)].join("\n")}\n`,
  ).toMatchInlineSnapshot(`
    "
    Preparing the check
    Working out ways to free inputs
    Working out the plans
    Working out what would change
    Working out the recommendation
    Stopped.
    This could not be worked out.
    "
  `);
});

it("what would change a recommendation says how it ended, and nothing while it runs or where it found something", () => {
  const tried = (state: Parameters<typeof describeWhatIfs>[0], found: number) =>
    describeWhatIfs(state, { done: 3, of: 12, found });
  expect([tried("running", 0), tried("done", 1)]).toEqual(["", ""]);
  expect(tried("done", 0)).toBe("No single what-if would.");
  expect(tried("stopped", 1)).toBe("Stopped after 3 of 12 what-ifs.");
  expect(tried("failed", 0)).toBe("This could not be worked out. Close and open it to try again.");
});
