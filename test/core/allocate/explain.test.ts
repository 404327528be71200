import { describe, expect, it } from "vitest";
import { bestPlan } from "../../../src/core/allocate/plans";
import { channel, musician, problem } from "./problems";

const small = problem(
  4,
  [
    channel("Bass", "bass", { currentInputs: [2] }),
    channel("Gus", "guitar", { player: "Gus", currentInputs: [3] }),
    channel("Gil", "guitar", { currentInputs: [1] }),
    channel("Click", "click", { wantedBy: ["Gus"] }),
    channel("Crowd", "audience", { pin: { as: "out" }, currentInputs: [4] }),
    channel("Host", "speech"),
  ],
  { musicians: [musician("Gus"), musician("Una")] },
);
const plan = bestPlan(small);

describe("a plan", () => {
  it("names what is lost, worst first, with the musicians who go without", () => {
    const out = bestPlan({
      ...small,
      channels: small.channels.map((c) => (c.id === "Host" ? { ...c, pin: { as: "out" } as const } : c)),
    });
    expect(out?.losses[0]).toEqual({ code: "unheard", channel: "Host", musicians: ["Gus", "Una"] });
    expect(plan?.losses.map((l) => `${l.code} ${l.channel}`)).toEqual([
      "left-out Crowd",
      "own-shared Gil",
      "own-shared Gus",
      "own-input-lost Gil",
      "own-input-lost Gus",
      "own-input-lost Crowd",
    ]);
  });

  it("keeps what is on the knobs where it is, and names what is not", () => {
    expect(plan?.feeds.map((f) => [f.inputs, f.channels])).toEqual([
      [[1], ["Gil", "Gus"]],
      [[2], ["Bass"]],
      [[3], ["Click"]],
      [[4], ["Host"]],
    ]);
    expect(plan?.changes).toEqual([
      { code: "moved", channel: "Gus", from: [3], to: [1] },
      { code: "new", channel: "Click", from: [], to: [3] },
      { code: "new", channel: "Host", from: [], to: [4] },
      { code: "gone", channel: "Crowd", from: [4], to: [] },
    ]);
    expect([plan?.moved, plan?.unusual, plan?.inputsLeft]).toEqual([0, 1, []]);
  });

  it("tells each musician what they can mix apart and what not", () => {
    expect(plan?.musicians).toEqual([
      {
        musician: "Gus",
        apart: ["Bass", "Click", "Host"],
        together: [{ inputs: [1], wants: ["Gil", "Gus"], others: 0 }],
        missing: [],
      },
      {
        musician: "Una",
        apart: ["Bass", "Host"],
        together: [{ inputs: [1], wants: ["Gil", "Gus"], others: 0 }],
        missing: [],
      },
    ]);
  });
});
