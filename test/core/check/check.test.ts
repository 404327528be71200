import { describe, expect, it } from "vitest";
import { answerShares, withSlips } from "../../../src/core/check/answers";
import { type Check, checkOf } from "../../../src/core/check/check";
import type { Fault } from "../../../src/core/check/faults";
import { isPlanned } from "../../../src/core/check/judge";
import type { EarImage } from "../../../src/core/check/wiring";
import type { Pan } from "../../../src/core/model/units";
import { drummer, setupWith } from "./kits";

const SLIP = 0.05;
const setup = setupWith(8, "sine");
const hatAlone = (): Check =>
  checkOf({ ...setup, channels: setup.channels.map((s) => ({ ...s, muted: s.id !== "hat" })) }, drummer);
const allAt = (pan: Pan): Check =>
  checkOf({ ...setup, channels: setup.channels.map((s) => ({ ...s, pan })) }, drummer);
const setWith = ({ sets }: Check, id: string) => sets.find((s) => s.faults.some((f) => f.id === id));
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

describe("a set of faults that the ears cannot tell apart", () => {
  it("is answered as its faults are on average, each by its weight", () => {
    const set = setWith(hatAlone(), "planned");
    const faults = set?.faults ?? [];
    const [planned] = (faults[0] as Fault).images as [EarImage];
    // Half as likely as "as planned", and surely at one side: not quite the same answers.
    expect(faults.map((f) => [f.id, f.weight])).toContainEqual(["right side only", 0.5]);
    const rows = faults.map((f) => withSlips(answerShares(f.images[0] as EarImage, planned), SLIP));
    expect(new Set(rows.map((row) => row[0])).size).toBeGreaterThan(1);
    const weights = sum(faults.map((f) => f.weight));
    set?.chances[0]?.forEach((chance, at) => {
      const weighed = faults.map((f, member) => f.weight * (rows[member]?.[at] as number));
      expect(chance).toBeCloseTo(sum(weighed) / weights, 12);
    });
    expect(sum(set?.chances[0] ?? [])).toBeCloseTo(1, 12);
  });

  it("is as likely before the first hit as its faults together", () => {
    const check = checkOf(setup, drummer);
    const faults = check.sets.flatMap((s) => s.faults);
    const all = sum(faults.map((f) => f.weight));
    for (const { faults: members, prior } of check.sets)
      expect(prior).toBeCloseTo(sum(members.map((f) => f.weight)) / all, 12);
    expect(setWith(check, "reversed")?.prior).toBeCloseTo(2 * (setWith(check, "planned")?.prior ?? 0), 12);
  });

  it("names the likeliest first: with everything hard on one side, silence before the other side alone", () => {
    const ids = setWith(allAt(1), "silent")?.faults.map((f) => f.id);
    expect(ids).toContain("left side only");
    expect(ids?.[0]).toBe("silent");
  });

  it("holds as planned once only", () => {
    const check = checkOf(setup, drummer);
    expect(check.sets.filter(isPlanned)).toEqual([setWith(check, "planned")]);
  });
});

it("where nothing can be checked there is nothing to hit and nothing to find", () => {
  expect(checkOf(setup, { ...drummer, kind: "audience" })).toEqual({
    strikes: [],
    sets: [],
    obstacle: "The audience hears FOH, not a bus.",
  });
});
