import fc from "fast-check";
import { expect, it } from "vitest";
import { time } from "../../../src/screens/headroom/time";

it.each([
  [0.04, "0.0 s"],
  [9.94, "9.9 s"],
  [9.96, "10 s"],
  [119.4, "119 s"],
  [119.6, "2 min"],
  [150, "3 min"],
  [3569, "59 min"],
  // Once "60 min" and "1 h 60 min".
  [3571, "1 h"],
  [7199, "2 h"],
  [28_800, "8 h"],
  [4290, "1 h 12 min"],
  [86_369, "23 h 59 min"],
  [86_371, "a whole day"],
  [Number.POSITIVE_INFINITY, "a whole day"],
])("%d s is %s", (seconds, said) => expect(time(seconds)).toBe(said));

it("never says sixty minutes or two minutes in seconds, and is right to half of its last unit", () => {
  const UNIT: { readonly [unit: string]: number } = { s: 1, min: 60, h: 3600 };
  fc.assert(
    fc.property(fc.double({ min: 0, max: 86_369, noNaN: true }), (seconds) => {
      const words = time(seconds).split(" ");
      const parts = words.flatMap((w, i) => (i % 2 === 0 ? [[Number(w), words[i + 1] ?? ""] as const] : []));
      expect(parts.every(([n, unit]) => n < (unit === "s" ? 120 : 60))).toBe(true);
      const said = parts.reduce((sum, [n, unit]) => sum + n * (UNIT[unit] ?? Number.NaN), 0);
      expect(Math.abs(said - seconds)).toBeLessThanOrEqual(words.at(-1) === "s" ? 0.5 : 30);
    }),
  );
});
