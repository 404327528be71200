import { describe, expect, it } from "vitest";
import { contradictionOf } from "../../src/core/allocate/contradict";
import type { AllocationProblem } from "../../src/core/allocate/model";
import { type AllocationPlan, allocate, bestPlan } from "../../src/core/allocate/plans";
import { whatIf } from "../../src/core/allocate/whatif";
import {
  allocatedBusName,
  describeMusician,
  describePlanChange,
  describePlanLosses,
  inputsName,
  PLAN_STYLES,
} from "../../src/text/allocate";
import { describeAllocation, describeContradiction, describePlanWhatIf } from "../../src/text/allocate-why";
import { LINE_UPS } from "../core/allocate/lineups";
import { channel, musician, problem } from "../core/allocate/problems";

const planText = (p: AllocationProblem, plan: AllocationPlan): string[] => [
  `${PLAN_STYLES[plan.style].name}: ${PLAN_STYLES[plan.style].why}`,
  ...plan.feeds.map((f) => `${inputsName(f.inputs)} ${f.bus ? allocatedBusName(f.bus) : f.channels[0]}`),
  ...describePlanLosses(p, plan),
  ...plan.musicians.map((view) => describeMusician(p, view)),
  ...plan.changes.map((change) => describePlanChange(p, change)),
];

/** Says everything there is to say at least once. */
const crowded = problem(
  5,
  [
    channel("Kick", "kick", { player: "Ada" }),
    channel("Hat", "drum", { player: "Ada" }),
    channel("Tom", "drum", { player: "Ada" }),
    channel("Conga", "percussion", { pin: { as: "shared" } }),
    channel("Bass", "bass", { currentInputs: [1] }),
    channel("Organ", "keys", { width: 2, keepsSides: true }),
    channel("Lead", "lead-vocal", { player: "Bo" }),
    channel("BV", "vocal", { player: "Ada", currentInputs: [2] }),
    channel("BV 2", "vocal", { player: "Bo" }),
    channel("Tracks", "playback", { width: 2 }),
    channel("Click", "click", { wantedBy: ["Ada"] }),
    channel("Crowd", "audience", { pin: { as: "out" }, currentInputs: [5] }),
    channel("Host", "speech"),
  ],
  { musicians: [musician("Ada"), musician("Bo")] },
);

const own = (input: number, width: 1 | 2 = 1) => ({ pin: { as: "own", width, input } }) as const;
const IMPOSSIBLE: readonly AllocationProblem[] = [
  problem(16, [
    ...["A", "B", "C", "D", "E"].map((id) =>
      channel(`Keys ${id}`, "keys", { width: 2, rule: { own: "must", stereo: "must" } }),
    ),
    ...[1, 2, 3, 4, 5, 6, 7].map((n) => channel(`Vox ${n}`, "lead-vocal")),
  ]),
  problem(8, [channel("Keys", "keys", { width: 2, ...own(3, 2) }), channel("Horn", "horn", own(4))]),
  problem(8, [channel("Click", "click", { pin: { as: "fold-back" } })]),
  problem(8, [channel("Click", "click", { pin: { as: "shared" } })]),
  problem(8, [channel("Kick", "kick", own(9))]),
  problem(1, [
    channel("Bass", "bass", { pin: { as: "own", width: 1, input: null } }),
    channel("Keys", "keys", { width: 2, pin: { as: "own", width: 2, input: null } }),
  ]),
  problem(1, [
    channel("Bass", "bass"),
    channel("Organ", "keys", { width: 2, keepsSides: true }),
    channel("Host", "speech"),
  ]),
  problem(1, [channel("Bass", "bass"), channel("Host", "speech")]),
  problem(2, [channel("Kick", "kick", { section: "Kit 2" })], {
    busPins: [{ bus: "drums/Kit 2", width: 2, input: 2 }],
  }),
  problem(1, [channel("Kick", "kick")], { busPins: [{ bus: "drums", width: 2, input: null }] }),
];

describe("the sentences of an allocation", () => {
  it("are as they were agreed on", () => {
    const eight = LINE_UPS["the same band on an 8-input system"] as AllocationProblem;
    const plans = [crowded, eight].flatMap((p) => allocate(p).plans.map((plan) => planText(p, plan)));
    const cases = [crowded, eight].map((p) =>
      whatIf(p, bestPlan(p) as AllocationPlan).map(describePlanWhatIf),
    );
    const impossible = IMPOSSIBLE.map((p) => {
      const contradiction = contradictionOf(p);
      return contradiction && describeContradiction(p, contradiction);
    });
    expect({ plans, cases, impossible, styles: PLAN_STYLES }).toMatchSnapshot();
  });

  it("name nothing twice and everything that is lost", () => {
    const plan = bestPlan(crowded) as AllocationPlan;
    const said = describePlanLosses(crowded, plan);
    expect(new Set(said).size).toBe(said.length);
    for (const id of plan.leftOut)
      expect(said.some((s) => s.startsWith(id) && s.includes("left out"))).toBe(true);
  });

  it("tick Decide only where the patch is one of the plans and nothing is missing", () => {
    const duo = problem(4, [channel("Bass", "bass"), channel("Guitar", "guitar")]);
    const patched = (...inputs: readonly (readonly number[])[]): AllocationProblem => ({
      ...duo,
      channels: duo.channels.map((c, i) => ({ ...c, currentInputs: inputs[i] ?? [] })),
    });
    const said = (p: AllocationProblem) => describeAllocation(p, allocate(p));
    const says = "2 channels, 4 monitor inputs";
    expect(said(patched([1], [2]))).toEqual({ tone: "fine", says, more: "" });
    const more = "The patch matches none of these plans yet.";
    expect(said(duo)).toEqual({ tone: "care", says, more });
    expect(said(patched([1]))).toEqual({ tone: "care", says, more });
    expect(describeAllocation(duo, null)).toEqual({ tone: "care", says, more: "" });
    const crowd = channel("Crowd", "audience", { pin: { as: "out" } });
    const left = patched([1], [2]);
    expect(said({ ...left, channels: [...left.channels, crowd] })).toMatchObject({
      tone: "care",
      says: "3 channels, 4 monitor inputs, 1 left out",
    });
    // The patch is a plan, and nothing contradicts, but that plan shares what must have an input of its own.
    const taken = [channel("Guitar", "guitar", { currentInputs: [1] })];
    for (const [id, kind] of [
      ["Bass", "bass"],
      ["Keys", "keys"],
    ] as const)
      taken.push(channel(id, kind, { currentInputs: [2] }));
    expect(said(problem(2, taken))).toEqual({
      tone: "care",
      says: "3 channels, 2 monitor inputs",
      more: "Patched as “Own inputs stay”: Bass shares In 2 with Keys, but must have an input of its own.",
    });
    const [needs] = IMPOSSIBLE;
    expect(needs && said(needs)).toMatchObject({
      tone: "care",
      more: expect.stringMatching(/need 17 inputs; there are 16\. /),
    });
    const pinned = problem(1, [channel("Bass", "bass", own(1)), channel("Guitar", "guitar", own(1))]);
    expect(said(pinned)).toMatchObject({ tone: "wrong", says: "No plan keeps every pin" });
    expect(said(problem(4, [])).tone).toBe("care");
  });
});
