import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Contradiction, contradictionOf } from "../../../src/core/allocate/contradict";
import type { AllocationProblem } from "../../../src/core/allocate/model";
import { type AllocationPlan, bestPlan } from "../../../src/core/allocate/plans";
import { BRUTE_CODES, leastLost } from "./brute";
import { channel, problem, smallProblem } from "./problems";

const MUST_CODES: readonly string[] = ["unheard", "must-own-shared", "sides-lost"];
const MUSTS = MUST_CODES.map((code) => BRUTE_CODES.indexOf(code));
const NOTHING = { own: "no", stereo: "no", mayLeaveOut: true, reach: "asked" } as const;

/** Whether the rules of these channels can all be kept, by trying everything; the others ask for nothing. */
const canKeepRules = (p: AllocationProblem, of: readonly string[]): boolean => {
  const channels = p.channels.map((c) =>
    of.includes(c.id) ? c : { ...c, keepsSides: false, wantedBy: [], rule: { ...c.rule, ...NOTHING } },
  );
  const counts = leastLost({ ...p, channels });
  return counts !== null && MUSTS.every((at) => counts[at] === 0);
};

/** Whether these pins are possible, whatever else is lost. */
const canKeepPins = (p: AllocationProblem, of: readonly string[]): boolean =>
  leastLost({
    ...p,
    channels: p.channels.map((c) => (of.includes(c.id) ? c : { ...c, pin: null })),
    busPins: p.busPins.filter((pin) => of.includes(pin.bus)),
  }) !== null;

const subsets = <T>(all: readonly T[], size: number): T[][] =>
  size === 0
    ? [[]]
    : all.flatMap((first, i) => subsets(all.slice(i + 1), size - 1).map((rest) => [first, ...rest]));

const ids = ({ wishes }: Contradiction): string[] =>
  wishes.map((w) => ("channel" in w ? w.channel : w.pin.bus)).sort();

const expectSmallest = (
  p: AllocationProblem,
  { wishes, needs }: Contradiction,
  all: readonly string[],
  canKeep: (p: AllocationProblem, of: readonly string[]) => boolean,
): void => {
  const set = wishes.map((w) => ("channel" in w ? w.channel : w.pin.bus));
  expect(canKeep(p, set)).toBe(false);
  for (let size = 0; size < set.length; size += 1)
    for (const smaller of subsets(all, size)) expect(canKeep(p, smaller)).toBe(true);
  if (needs === null) return;
  expect(canKeep({ ...p, inputs: needs }, set)).toBe(true);
  expect(canKeep({ ...p, inputs: needs - 1 }, set)).toBe(false);
};

describe("contradictionOf", () => {
  it("is null exactly where nothing is lost that must be kept", () => {
    let none = 0;
    let runs = 0;
    fc.assert(
      fc.property(smallProblem(8, { pinned: false }), (p) => {
        runs += 1;
        const lost = (bestPlan(p) as AllocationPlan).losses.filter((l) => MUST_CODES.includes(l.code));
        expect(contradictionOf(p) === null).toBe(lost.length === 0);
        if (lost.length === 0) none += 1;
      }),
      { numRuns: 250 },
    );
    // Of what was really run: a mutant is judged by fewer.
    expect(none / runs).toBeGreaterThan(50 / 250);
    expect(none / runs).toBeLessThan(230 / 250);
  });

  it("is the smallest of rules: no smaller set contradicts itself, and it needs as many inputs as it says", () => {
    let found = 0;
    let runs = 0;
    fc.assert(
      fc.property(smallProblem(4, { pinned: false }), (p) => {
        runs += 1;
        const contradiction = contradictionOf(p);
        const all = p.channels.map((c) => c.id);
        if (contradiction === null) expect(canKeepRules(p, all)).toBe(true);
        else {
          found += 1;
          expectSmallest(p, contradiction, all, canKeepRules);
        }
      }),
      { numRuns: 250 },
    );
    expect(found / runs).toBeGreaterThan(40 / 250);
  });

  it("is the smallest of pins where there is no plan", () => {
    let found = 0;
    let runs = 0;
    fc.assert(
      fc.property(smallProblem(5), (p) => {
        runs += 1;
        if (bestPlan(p)) return;
        found += 1;
        const all = [...p.channels.filter((c) => c.pin).map((c) => c.id), ...p.busPins.map((pin) => pin.bus)];
        const contradiction = contradictionOf(p);
        expect(contradiction?.wishes.every((w) => w.by !== "rule")).toBe(true);
        expectSmallest(p, contradiction as Contradiction, all, canKeepPins);
      }),
      { numRuns: 500 },
    );
    expect(found / runs).toBeGreaterThan(100 / 500);
  });

  it("is five stereo channels and seven vocals on sixteen inputs, which need seventeen", () => {
    const must = { rule: { own: "must", stereo: "must" } } as const;
    const p = problem(16, [
      ...["A", "B", "C", "D", "E"].map((id) => channel(`Keys ${id}`, "keys", { width: 2, ...must })),
      ...[1, 2, 3, 4, 5, 6, 7].map((n) => channel(`Vox ${n}`, "lead-vocal")),
      ...[1, 2, 3, 4].map((n) =>
        channel(`Horn ${n}`, "horn", { rule: { reach: "asked", mayLeaveOut: true } }),
      ),
    ]);
    const found = contradictionOf(p);
    expect(found && [found.wishes.length, found.needs]).toEqual([12, 17]);
  });

  it("prefers few heavy wishes to many light ones, and two for one input to either", () => {
    const own = (id: string, width: 1 | 2, input: number | null) =>
      channel(id, "keys", { width, pin: { as: "own", width, input } });
    const heavy = contradictionOf(
      problem(2, [own("A", 1, null), own("B", 1, null), own("C", 1, null), own("D", 2, null)]),
    );
    expect(heavy?.wishes).toHaveLength(2);
    const same = contradictionOf(
      problem(4, [own("A", 1, 1), own("B", 1, 1), own("C", 2, null), own("D", 2, null)]),
    );
    expect(same && ids(same)).toEqual(["A", "B"]);
  });

  it("names two pins for one input, and a pin where nothing can stand", () => {
    const at = (input: number, width: 1 | 2 = 1) => ({ pin: { as: "own", width, input } }) as const;
    const some = [
      channel("A", "keys", { width: 2, ...at(3, 2) }),
      channel("B", "horn", at(4)),
      channel("C", "bass"),
    ];
    const both = contradictionOf(problem(8, some));
    expect(both && [ids(both), both.needs]).toEqual([["A", "B"], null]);
    const even = contradictionOf(
      problem(8, [channel("A", "keys", { width: 2, ...at(2, 2) }), ...some.slice(1)]),
    );
    expect(even && [ids(even), even.needs]).toEqual([["A"], null]);
    const beyond = contradictionOf(problem(8, [channel("A", "horn", at(9))]));
    expect(beyond && [ids(beyond), beyond.needs]).toEqual([["A"], 9]);
    const clickInBus = contradictionOf(problem(8, [channel("A", "click", { pin: { as: "fold-back" } })]));
    expect(clickInBus && [ids(clickInBus), clickInBus.needs]).toEqual([["A"], null]);
    const noBus = contradictionOf(
      problem(8, [channel("A", "bass")], { busPins: [{ bus: "keys", width: 1, input: null }] }),
    );
    expect(noBus && [ids(noBus), noBus.needs]).toEqual([["keys"], null]);
  });
});
