import { describe, expect, it } from "vitest";
import { compareCharges, type LossCode, packing, WORST_FIRST } from "../../../src/core/allocate/losses";
import { busId, busOfId } from "../../../src/core/allocate/model";
import { bestPlan } from "../../../src/core/allocate/plans";
import type { AllocationKind } from "../../../src/core/allocate/rules";
import { channel, problem } from "./problems";

const most = Object.fromEntries(WORST_FIRST.map((code) => [code, 100])) as { [code in LossCode]: number };

describe("the rules", () => {
  it("order the inputs: drums, percussion, bass, guitars, keys, horns, vocals with the lead first, playback, click, fold-back", () => {
    const order: AllocationKind[] = [
      "kick",
      "snare",
      "drum",
      "percussion",
      "bass",
      "guitar",
      "keys",
      "horn",
      "lead-vocal",
      "vocal",
      "playback",
      "click",
      "talkback",
      "speech",
    ];
    const shuffled = [...order].sort();
    const plan = bestPlan(
      problem(
        20,
        shuffled.map((kind) => channel(kind, kind)),
      ),
    );
    expect(plan?.feeds.map((f) => f.channels[0])).toEqual(order);
  });

  it("keep what belongs to one kit together, in the order of the desk", () => {
    const kit = (section: string, from: number) =>
      (["kick", "snare", "drum"] as const).map((kind, i) =>
        channel(`${section} ${kind}`, kind, { section, number: from + i, rule: { own: "must" } }),
      );
    const plan = bestPlan(problem(8, [...kit("Left kit", 5), ...kit("Right kit", 1)]));
    expect(plan?.feeds.map((f) => f.channels[0])).toEqual([
      "Right kit kick",
      "Right kit snare",
      "Right kit drum",
      "Left kit kick",
      "Left kit snare",
      "Left kit drum",
    ]);
  });

  it("let a click share with nobody, whatever is said", () => {
    const p = problem(1, [
      channel("Click", "click", { rule: { shares: "anyone" } }),
      channel("Bass", "bass", { rule: { shares: "anyone" } }),
    ]);
    expect(bestPlan(p)?.feeds.map((f) => f.channels)).toEqual([["Bass"]]);
  });
});

describe("the table of losses", () => {
  it("packs exactly: a worse loss outweighs all that are less bad at their most", () => {
    const { pack, words } = packing(WORST_FIRST, most);
    expect(words).toBeGreaterThan(1);
    const less = (a: readonly number[], b: readonly number[]): boolean => {
      const i = a.findIndex((v, at) => v !== b[at]);
      return i >= 0 && (a[i] as number) < (b[i] as number);
    };
    WORST_FIRST.forEach((code, i) => {
      const rest = Object.fromEntries(WORST_FIRST.slice(i + 1).map((c) => [c, 100]));
      expect(less(pack(rest), pack({ [code]: 1 }))).toBe(true);
      expect(pack({ [code]: 100 }).every(Number.isSafeInteger)).toBe(true);
      expect(compareCharges(rest, { [code]: 1 })).toBeLessThan(0);
    });
  });
});

describe("busId", () => {
  it.each([
    ["drums", null, null],
    ["drums", "Kit 2", null],
    ["drums", null, "Kick"],
    ["horns", "a/b%2F", "100 %/"],
    ["fold-back", null, null],
  ] as const)("is read back: %s, %s, %s", (family, section, instrument) => {
    expect(busOfId(busId(family, section, instrument))).toMatchObject({ family, section, instrument });
  });

  it("tells a section from an instrument", () => {
    expect(busId("drums", "Kick")).not.toBe(busId("drums", null, "Kick"));
    expect(busId("drums", "a", "b")).not.toBe(busId("drums", "a/b"));
  });
});
