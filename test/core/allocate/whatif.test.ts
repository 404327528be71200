import { describe, expect, it } from "vitest";
import type { PlanLoss } from "../../../src/core/allocate/explain";
import type { AllocationProblem } from "../../../src/core/allocate/model";
import { type AllocationPlan, bestPlan } from "../../../src/core/allocate/plans";
import { type PlanWhatIf, type WhatIfCode, whatIf } from "../../../src/core/allocate/whatif";
import { LINE_UPS } from "./lineups";
import { channel, musician, problem } from "./problems";

const duo = problem(
  4,
  [
    channel("Kick", "kick", { player: "Ada" }),
    channel("OH L", "drum", { player: "Ada" }),
    channel("OH R", "drum", { player: "Ada" }),
    channel("Bass", "bass"),
    channel("Keys", "keys", { width: 2 }),
  ],
  { musicians: [musician("Ada"), musician("Bo")] },
);

const cases = (p: AllocationProblem): PlanWhatIf[] => whatIf(p, bestPlan(p) as AllocationPlan);
const of = (p: AllocationProblem, code: WhatIfCode): PlanWhatIf | undefined =>
  cases(p).find((c) => c.code === code);
const said = (losses: readonly PlanLoss[] | undefined) => losses?.map((l) => `${l.code} ${l.channel}`);

describe("what if", () => {
  it("tells what one input more and one less change", () => {
    // Four inputs: drums mono or keys mono. The kit’s image comes first.
    expect(said(bestPlan(duo)?.losses)).toEqual(["stereo-folded Keys", "spare-own-shared Kick"]);
    const more = of(duo, "one-more");
    expect(said(more?.gained)).toEqual(["stereo-folded Keys"]);
    expect(said(more?.lost)).toEqual([]);
    const less = of(duo, "one-less");
    expect([said(less?.gained), said(less?.lost)]).toEqual([[], ["image-folded OH L", "image-folded OH R"]]);
  });

  it("a second system doubles the inputs", () => {
    const second = of(duo, "second-system");
    expect(second?.problem.inputs).toBe(8);
    expect(second?.plan?.losses).toEqual([]);
  });

  it("two drummers bring a second kit with a bus of its own", () => {
    const two = of({ ...duo, inputs: 7 }, "two-drummers");
    expect(two?.problem.channels).toHaveLength(8);
    expect(two?.problem.musicians).toHaveLength(3);
    expect(two?.plan?.feeds.map((f) => f.bus?.id ?? f.channels[0])).toEqual([
      "drums/Kit 1",
      "drums/Kit 2",
      "Keys",
      "Bass",
    ]);
  });

  it("mono packs need no stereo", () => {
    const mono = of(duo, "mono-packs");
    expect(said(mono?.gained)).toEqual(["stereo-folded Keys", "spare-own-shared Kick"]);
    expect(mono?.plan?.feeds.every((f) => f.width === 1)).toBe(true);
  });

  it("asks only what can be asked", () => {
    const none = problem(0, [channel("Bass", "bass")], { musicians: [musician("Ada", true)] });
    expect(cases(none).map((c) => c.code)).toEqual(["one-more", "second-system"]);
    const kits = LINE_UPS["two drummers"] as AllocationProblem;
    expect(cases(kits).map((c) => c.code)).toEqual(["one-more", "one-less", "second-system", "mono-packs"]);
  });

  it("says so when pins leave no way", () => {
    const pinned = problem(1, [channel("Bass", "bass", { pin: { as: "own", width: 1, input: 1 } })]);
    expect(of(pinned, "one-less")?.plan).toBeNull();
  });
});
