import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareCharges } from "../../../src/core/allocate/losses";
import type { AllocationProblem, AllocationRule } from "../../../src/core/allocate/model";
import { type AllocationPlan, allocate, bestPlan } from "../../../src/core/allocate/plans";
import { KIND_RULES } from "../../../src/core/allocate/rules";
import { solve } from "../../../src/core/allocate/solve";
import { channel, problem, SMALL_KINDS, smallProblem } from "./problems";

const large = smallProblem(16, { kinds: SMALL_KINDS });
const unpinned = smallProblem(12, { pinned: false });

const expectNoMore = (now: AllocationProblem, then: AllocationProblem): void => {
  const [a, b] = [solve(now), solve(then)];
  if (a === null) return;
  expect(b).not.toBeNull();
  if (b) expect(compareCharges(b.charges, a.charges)).toBeLessThanOrEqual(0);
};

/** Each wish with what it may be relaxed to. */
const RELAXED: { readonly [key in keyof AllocationRule]?: readonly AllocationRule[key][] } = {
  own: ["must", "prefer", "if-left", "no-matter", "no"],
  stereo: ["must", "prefer", "no"],
  panned: [true, false],
  shares: ["nobody", "family", "anyone"],
  reach: ["all", "asked"],
  mayLeaveOut: [false, true],
  maySwap: [false, true],
};

const plansOf = (problem: AllocationProblem): readonly AllocationPlan[] => allocate(problem).plans;
const every = (
  of: fc.Arbitrary<AllocationProblem>,
  test: (problem: AllocationProblem) => void,
  numRuns = 250,
) => fc.assert(fc.property(of, test), { numRuns });

describe("an allocation", () => {
  it("never costs more with one input more, places included", () => {
    every(large, (p) => {
      const more = { ...p, inputs: p.inputs + 1 };
      expectNoMore(p, more);
      const [a, b] = [bestPlan(p), bestPlan(more)];
      if (a && b && compareCharges(a.charges, b.charges) === 0) {
        expect(b.moved).toBeLessThanOrEqual(a.moved);
        if (a.moved === b.moved && a.moved === 0) expect(b.unusual).toBeLessThanOrEqual(a.unusual);
      }
    });
  });

  it("never costs more with a rule relaxed", () => {
    const key = fc.constantFrom(...(Object.keys(RELAXED) as (keyof AllocationRule)[]));
    fc.assert(
      fc.property(large, fc.nat(), key, fc.nat(), (p, which, wish, step) => {
        const at = which % p.channels.length;
        const channels = p.channels.map((c, i) => {
          if (i !== at) return c;
          const steps = RELAXED[wish] as readonly unknown[];
          const now = steps.indexOf({ ...KIND_RULES[c.kind].rule, ...c.rule }[wish]);
          const then = steps[Math.min(steps.length - 1, now + 1 + (step % 2))];
          return { ...c, rule: { ...c.rule, [wish]: then } };
        });
        expectNoMore(p, { ...p, channels });
      }),
      { numRuns: 500 },
    );
  });

  it("never costs more with a pin, a wish or a reserved input taken away", () => {
    every(large, (p) => {
      expectNoMore(p, { ...p, reserved: [] });
      expectNoMore(p, { ...p, busPins: [] });
      expectNoMore(p, { ...p, channels: p.channels.map((c) => ({ ...c, pin: null })) });
      expectNoMore(p, { ...p, channels: p.channels.map((c) => ({ ...c, wantedBy: [] })) });
      expectNoMore(p, { ...p, channels: p.channels.map((c) => ({ ...c, keepsSides: false })) });
    });
  });

  it("does not depend on the order of entry", () => {
    fc.assert(
      fc.property(
        large.chain((p) =>
          fc.tuple(
            fc.constant(p),
            fc.shuffledSubarray([...p.channels], { minLength: p.channels.length }),
            fc.shuffledSubarray([...p.musicians], { minLength: p.musicians.length }),
          ),
        ),
        ([p, channels, musicians]) => {
          const [a, b] = [allocate(p), allocate({ ...p, channels, musicians })];
          const said = ({ plans }: typeof a) => plans.map(({ musicians: _, ...plan }) => plan);
          expect(said(b)).toEqual(said(a));
          expect(b.contradiction).toEqual(a.contradiction);
        },
      ),
      { numRuns: 150 },
    );
  });

  it("names every channel: on an input, or left out and among the losses", () => {
    every(large, (p) => {
      for (const plan of plansOf(p)) {
        const heard = plan.feeds.flatMap((f) => f.channels);
        expect([...heard, ...plan.leftOut].sort()).toEqual(p.channels.map((c) => c.id).sort());
        const named = plan.losses.filter((l) => l.code === "left-out").map((l) => l.channel);
        expect([...named].sort()).toEqual([...plan.leftOut].sort());
      }
    });
  });

  it("puts stereo on odd and even neighbours only, nothing twice, nothing on a reserved input", () => {
    every(large, (p) => {
      for (const { feeds, inputsLeft } of plansOf(p)) {
        for (const { inputs, width } of feeds) {
          expect(inputs).toHaveLength(width);
          if (width === 2)
            expect([(inputs[0] as number) % 2, inputs[1]]).toEqual([1, (inputs[0] as number) + 1]);
        }
        const all = [
          ...feeds.flatMap((f) => f.inputs),
          ...inputsLeft,
          ...p.reserved.filter((n) => n <= p.inputs),
        ].sort((a, b) => a - b);
        expect(all).toEqual(Array.from({ length: p.inputs }, (_, i) => i + 1));
      }
    });
  });

  it("never has a click in a bus", () => {
    every(smallProblem(8, { kinds: ["click", "playback", "speech"] }), (p) => {
      const clicks = p.channels.filter((c) => c.kind === "click").map((c) => c.id);
      for (const { feeds } of plansOf(p))
        for (const { channels, bus } of feeds)
          if (channels.some((id) => clicks.includes(id))) expect([channels.length, bus]).toEqual([1, null]);
    });
  });

  it("never has what must keep L/R in a bus that is swapped, unless its rule says so", () => {
    let swapped = 0;
    every(
      smallProblem(8, { kinds: ["drum", "percussion", "keys"] }),
      (small) => {
        const p = {
          ...small,
          inputs: small.inputs + 2,
          musicians: [],
          swapped: ["drums", "drums/percussion", "drums/A", "keys", "fold-back"],
        };
        const kept = p.channels.filter((c) => c.keepsSides && !c.rule.maySwap).map((c) => c.id);
        for (const { feeds } of plansOf(p))
          for (const { channels, isSwapped } of feeds)
            if (isSwapped) {
              swapped += 1;
              expect(channels.filter((id) => kept.includes(id))).toEqual([]);
            }
      },
      400,
    );
    expect(swapped).toBeGreaterThan(10);
  });

  it("keeps every pin", () => {
    every(large, (p) => {
      for (const { feeds, leftOut } of plansOf(p))
        for (const { id, pin, kind } of p.channels) {
          const feed = feeds.find((f) => f.channels.includes(id));
          if (pin?.as === "out") expect(leftOut).toContain(id);
          if (pin?.as === "fold-back") expect(feed?.bus?.level).toBe("fold-back");
          if (pin?.as === "shared" && KIND_RULES[kind].family !== "fold-back")
            expect(["instrument", "section", "family"]).toContain(feed?.bus?.level);
          if (pin?.as === "own") {
            expect([feed?.bus, feed?.width, feed?.channels]).toEqual([null, pin.width, [id]]);
            if (pin.input !== null) expect(feed?.inputs[0]).toBe(pin.input);
          }
        }
    });
  });

  it("has plans that differ in who shares with whom", () => {
    every(unpinned, (p) => {
      const structures = plansOf(p).map(({ feeds }) =>
        feeds
          .map(({ width, channels }) => `${width} ${[...channels].sort()}`)
          .sort()
          .join(),
      );
      expect(new Set(structures).size).toBe(structures.length);
    });
  });

  it("loses nothing less in another plan than in the first", () => {
    every(unpinned, (p) => {
      const [first, ...others] = plansOf(p);
      for (const other of others)
        expect(compareCharges(other.charges, (first as AllocationPlan).charges)).toBeGreaterThanOrEqual(0);
    });
  });
});

describe("next to nothing", () => {
  it.each([
    ["no channel", problem(16, [])],
    ["no input", problem(0, [channel("Bass", "bass"), channel("Crowd", "audience")])],
    ["no musician", problem(3, [channel("Bass", "bass")], { musicians: [] })],
    ["every input reserved", problem(2, [channel("Bass", "bass")], { reserved: [1, 2] })],
    [
      "one input for a stereo channel",
      problem(1, [channel("Organ", "keys", { width: 2, keepsSides: true })]),
    ],
  ])("is planned as well: %s", (_, p) => {
    const [plan] = plansOf(p);
    expect(
      plan?.feeds
        .flatMap((f) => f.channels)
        .concat(plan.leftOut)
        .sort(),
    ).toEqual(p.channels.map((c) => c.id).sort());
  });
});
