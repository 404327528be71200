import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyPlan } from "../../src/core/allocate/apply";
import { defaultRule } from "../../src/core/allocate/default-rule";
import { compareCharges } from "../../src/core/allocate/losses";
import { musiciansOf } from "../../src/core/allocate/people";
import { type AllocationPlan, allocate, bestPlan } from "../../src/core/allocate/plans";
import { problemOf } from "../../src/core/allocate/problem";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import { RULE_VALUES, type RuleOfValue } from "../../src/core/model/rule-values";
import type { Channel, ChannelRule } from "../../src/core/model/setup";
import { blankSetup, DRUMMER } from "../../src/document/blank";
import { editRules } from "../../src/document/commands/rules";
import type { SetupFile } from "../../src/document/schema";
import { allocatedBusName } from "../../src/text/allocate";
import { applied } from "./commands";

const LINES: readonly (readonly [name: string, kind: Channel["kind"], lines?: 2])[] = [
  ["Kick in", "drum"],
  ["Kick out", "drum"],
  ["Hat", "drum"],
  ["Congas", "percussion"],
  ["Bass", "bass"],
  ["Guitar", "guitar"],
  ["Guitar 2", "guitar", 2],
  ["Keys", "keys", 2],
  ["Trumpet", "horn"],
  ["Sax", "horn"],
  ["Lead vox", "lead-vocal"],
  ["BV 1", "vocal"],
  ["Playback", "playback", 2],
  ["Click", "click"],
  ["Count", "click"],
  ["Talk", "talkback"],
  ["Host", "speech"],
  ["Room mic", "audience"],
];
const PEOPLE = ["Tobi, lead vox", "Lene, keys", "Ines, MD"];
/** Beside the drummer, whose id every new setup has. */
const IDS = ["l10", "l11", "l12"];

const aRule: fc.Arbitrary<ChannelRule> = fc.record(
  {
    own: fc.constantFrom(...RULE_VALUES.own),
    stereo: fc.constantFrom(...RULE_VALUES.stereo),
    shares: fc.constantFrom(...RULE_VALUES.shares),
    reach: fc.oneof(fc.constant("all" as const), fc.subarray(IDS)),
    mayLeaveOut: fc.boolean(),
    tap: fc.constantFrom(...RULE_VALUES.tap),
    send: fc.constantFrom(...RULE_VALUES.send),
  },
  { requiredKeys: [] },
);

const aBand: fc.Arbitrary<SetupFile> = fc
  .record({
    lines: fc.subarray([...LINES], { minLength: 1 }),
    rules: fc.array(fc.option(aRule), { minLength: LINES.length, maxLength: LINES.length }),
    inputCount: fc.integer({ min: 2, max: 20 }),
  })
  .map(({ lines, rules, inputCount }) => {
    const blank = blankSetup("A band");
    const channels = lines.map(([name, kind, wide], i): Channel => {
      const channel = {
        ...BLANK_CHANNEL,
        id: `s${i + 1}`,
        name,
        kind,
        lines: wide ?? 1,
        numbers: [i + 1],
      } as const;
      const rule = rules[i];
      return rule ? { ...channel, rule } : channel;
    });
    const people = PEOPLE.map((name, i) => ({
      ...DRUMMER,
      id: IDS[i] ?? "",
      name,
      kind: "performer" as const,
      bus: null,
    }));
    return {
      ...blank,
      channels,
      listeners: [...blank.listeners, ...people],
      monitor: { ...blank.monitor, inputCount },
    };
  });

const asked = (file: SetupFile) => problemOf(file, { channels: new Map(), buses: [] });
const best = (file: SetupFile): AllocationPlan => {
  const plan = bestPlan(asked(file));
  if (!plan) throw new Error("no plan without pins");
  return plan;
};
const expectNoMore = (now: SetupFile, then: SetupFile): void =>
  expect(compareCharges(best(then).charges, best(now).charges)).toBeLessThanOrEqual(0);

/** Most demanding first, as the lists have them; what of them decides where a thing goes. */
const RELAXED: readonly RuleOfValue[] = ["own", "stereo", "shares", "mayLeaveOut"];

describe("a plan by the rules of channels", () => {
  it("never costs more with one input more", () => {
    fc.assert(
      fc.property(aBand, (file) => {
        const { monitor } = file;
        expectNoMore(file, { ...file, monitor: { ...monitor, inputCount: monitor.inputCount + 1 } });
      }),
      { numRuns: 100 },
    );
  });

  it("never costs more with a rule of one or several channels relaxed", () => {
    fc.assert(
      fc.property(
        aBand,
        fc.constantFrom(...RELAXED),
        fc.integer({ min: 1, max: 4 }),
        fc.array(fc.nat(), { minLength: 1, maxLength: 4 }),
        (file, key, steps, which) => {
          const { channels } = asked(file);
          const some = new Set(which.map((n) => n % file.channels.length));
          const relaxed = [...some].map((i) => {
            const channel = file.channels[i] as Channel;
            const kind = channels[i]?.kind ?? channel.kind;
            const now = channel.rule?.[key] ?? defaultRule(file, channel, kind)[key];
            const values: readonly unknown[] = RULE_VALUES[key];
            const then = values[Math.min(values.length - 1, values.indexOf(now) + steps)];
            return editRules([channel.id], { [key]: then });
          });
          expectNoMore(file, applied(file, ...relaxed));
        },
      ),
      { numRuns: 250 },
    );
  });

  it("never costs more where fewer must hear something", () => {
    fc.assert(
      fc.property(aBand, fc.nat(), fc.subarray(IDS), (file, which, fewer) => {
        const channel = file.channels[which % file.channels.length] as Channel;
        const everybody = applied(file, editRules([channel.id], { reach: "all" }));
        const musicians = musiciansOf(file).map(({ id }) => id);
        const named = applied(file, editRules([channel.id], { reach: musicians }));
        expect(best(named).charges).toEqual(best(everybody).charges);
        const some = applied(file, editRules([channel.id], { reach: fewer }));
        expectNoMore(everybody, some);
        expectNoMore(some, applied(file, editRules([channel.id], { reach: fewer.slice(1) })));
      }),
      { numRuns: 100 },
    );
  });

  it("does not depend on the order in which channels and people were entered", () => {
    const shuffled = aBand.chain((file) =>
      fc.tuple(
        fc.constant(file),
        fc.shuffledSubarray([...file.channels], { minLength: file.channels.length }),
        fc.shuffledSubarray([...file.listeners], { minLength: file.listeners.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([file, channels, listeners]) => {
        const said = (of: SetupFile) =>
          allocate(asked(of)).plans.map(({ style, feeds, leftOut, charges }) => ({
            ...{ style, feeds, charges },
            leftOut: [...leftOut].sort(),
          }));
        expect(said({ ...file, channels, listeners })).toEqual(said(file));
      }),
      { numRuns: 60 },
    );
  });

  it("patches a click with nothing else, stereo on odd and even neighbours, and the taps that were asked for", () => {
    fc.assert(
      fc.property(aBand, (file) => {
        const problem = asked(file);
        const clicks = file.channels.filter(({ kind }) => kind === "click").map(({ id }) => id);
        for (const plan of allocate(problem).plans) {
          const after = applyPlan(file, problem, plan, allocatedBusName);
          for (const { sends } of after.buses)
            expect(sends.filter((s) => s.on && clicks.includes(s.channel))).toEqual([]);
          const at = (of: string) =>
            after.monitor.inputs.flatMap((input, i) =>
              input && (input.feed.kind === "bus" ? input.feed.bus : input.feed.channel) === of
                ? [i + 1]
                : [],
            );
          for (const { id } of [...after.buses, ...after.channels]) {
            const [first = 1, second = first + 1, ...more] = at(id);
            expect(more).toEqual([]);
            if (at(id).length === 2) expect([first % 2, second - first]).toEqual([1, 1]);
          }
          for (const { rule, directOut } of after.channels)
            if (rule?.tap && directOut.on) expect(directOut.tap).toBe(rule.tap);
        }
      }),
      { numRuns: 60 },
    );
  });
});
