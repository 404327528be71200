import { expect, it, vi } from "vitest";
import { exampleSetup } from "../../../src/document/example";
import { load } from "../../../src/document/store";
import { renderHits } from "../../../src/listen/hits";
import { isReady, prepare } from "../../../src/screens/listen/material";

vi.mock("../../../src/listen/hits", { spy: true });

it("hits are rendered once, however many ask before they are ready and after", async () => {
  load(exampleSetup());
  expect(isReady.value).toBe(false);
  await Promise.all([prepare(), prepare()]);
  expect(isReady.value).toBe(true);
  await prepare();
  expect(renderHits).toHaveBeenCalledTimes(1);
});
