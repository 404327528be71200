import { expect, it } from "vitest";
import { formatLevelError } from "../../src/text/level-error";

it("an error says how far below the estimate the real level may lie, and how far above", () => {
  expect(formatLevelError({ below: 2, above: 4.5 })).toBe("−2.0 +4.5 dB");
  expect(formatLevelError({ below: 0, above: 8 })).toBe("0.0 +8.0 dB");
});
