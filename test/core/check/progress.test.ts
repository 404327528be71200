import { expect, it } from "vitest";
import { checkOf } from "../../../src/core/check/check";
import { progressOf } from "../../../src/core/check/progress";
import { posterior } from "../../../src/core/check/session";
import type { Hit } from "../../../src/core/model/setup";
import { drummer, setupWith } from "./kits";

it("progress is the share of the first uncertainty that the hits have taken away", () => {
  const check = checkOf(setupWith(8, "sine"), drummer);
  const hits: Hit[] = [{ piece: "hat", answer: "left" }];
  const [first, left] = [posterior(check, []).entropy, posterior(check, hits).entropy];
  expect(left).toBeLessThan(first);
  expect(progressOf(check, hits)).toBeCloseTo((first - left) / first, 12);
});
