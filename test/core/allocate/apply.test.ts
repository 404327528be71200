import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyPlan } from "../../../src/core/allocate/apply";
import type { Pin } from "../../../src/core/allocate/model";
import { type AllocationPlan, allocate, bestPlan } from "../../../src/core/allocate/plans";
import { type HandPins, problemOf } from "../../../src/core/allocate/problem";
import { whatIf } from "../../../src/core/allocate/whatif";
import { deskMoves } from "../../../src/core/inputs/desk-list";
import type { IssueCode } from "../../../src/core/inputs/issue";
import { patchIssues } from "../../../src/core/inputs/issues";
import { BLANK_CHANNEL, BLANK_INPUT } from "../../../src/core/model/defaults";
import type { Channel, Setup } from "../../../src/core/model/setup";
import { blankSetup } from "../../../src/document/blank";
import { replaceSetup } from "../../../src/document/commands/apply";
import { exampleSetup } from "../../../src/document/example";
import { back, beginHistory, record } from "../../../src/document/history";
import { printSetup, readSetupText } from "../../../src/document/read-setup";
import { allocatedBusName } from "../../../src/text/allocate";
import { aBand, NO_PINS } from "./bands";

/** Everything that says that something reaches nobody, or comes in twice or by one side. */
const OF_REACH: readonly IssueCode[] = [
  ...(["unfed channel", "empty bus", "nothing fed", "off", "unfed listener"] as const),
  ...(["heard twice", "patched twice", "only one side", "split", "swapped", "normal"] as const),
  ...(["odd and even", "spare side", "too many", "beyond last"] as const),
];

const applying = (plan: AllocationPlan, pins = NO_PINS) =>
  replaceSetup("apply plan", (s: Setup) => applyPlan(s, problemOf(s, pins), plan, allocatedBusName));

describe("a plan that is applied", () => {
  it("reaches somebody with every channel that it has, and names every other", () => {
    fc.assert(
      fc.property(aBand, (setup) => {
        const problem = problemOf(setup, NO_PINS);
        const { plans } = allocate(problem);
        expect(plans.length).toBeGreaterThan(0);
        for (const plan of plans) {
          const fed = plan.feeds.flatMap((feed) => feed.channels);
          expect([...fed, ...plan.leftOut].sort()).toEqual(setup.channels.map((c) => c.id).sort());
          for (const id of plan.leftOut)
            expect(plan.losses.some((l) => l.channel === id && l.code === "left-out")).toBe(true);
          const after = applying(plan).apply(setup);
          const wrong = patchIssues(after)
            .filter(({ code }) => OF_REACH.includes(code))
            .filter(({ channels }) => channels.length === 0 || channels.some((id) => fed.includes(id)));
          // What is muted sounds nowhere, and a bus of nothing else is empty.
          const sounding = after.channels.filter((c) => !c.muted).map((c) => c.id);
          const isSilent = !fed.some((id) => sounding.includes(id));
          const bad = wrong.filter(
            ({ code }) => code !== "empty bus" && !(isSilent && code === "nothing fed"),
          );
          expect(bad).toEqual([]);
          for (const { buses } of wrong)
            for (const id of buses)
              expect(
                after.buses.find((b) => b.id === id)?.sends.some((s) => s.on && sounding.includes(s.channel)),
              ).toBe(false);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("gives each input that has none the first free port, as far as the desk has any", () => {
    fc.assert(
      fc.property(aBand, (setup) => {
        const after = applying(bestPlan(problemOf(setup, NO_PINS)) as AllocationPlan).apply(setup).monitor
          .inputs;
        const kept = after.flatMap((input, i) => (input ? (setup.monitor.inputs[i]?.port ?? []) : []));
        const given = after.flatMap((input, i) =>
          input && (setup.monitor.inputs[i]?.port ?? null) === null ? [input.port] : [],
        );
        const free = Array.from({ length: setup.desk.portCount }, (_, i) => i + 1).filter(
          (port) => !kept.includes(port),
        );
        expect(given).toEqual(given.map((_, i) => free[i] ?? null));
      }),
    );
  });

  it("is taken back by one undo, keeps the ports and can be written and read", () => {
    fc.assert(
      fc.property(aBand, (setup) => {
        const plan = bestPlan(problemOf(setup, NO_PINS)) as AllocationPlan;
        const started = beginHistory(setup);
        const then = record(started, applying(plan));
        expect(back(then).present).toBe(setup);
        const after = then.present;
        after.monitor.inputs.forEach((input, i) => {
          const was = setup.monitor.inputs[i]?.port ?? null;
          if (input && was !== null) expect(input.port).toBe(was);
        });
        expect(readSetupText(printSetup(after))).toMatchObject({ ok: true, notes: [] });
      }),
      { numRuns: 40 },
    );
  });

  it("asks for nothing more when it is applied again", () => {
    fc.assert(
      fc.property(aBand, (setup) => {
        const plan = bestPlan(problemOf(setup, NO_PINS)) as AllocationPlan;
        const once = applying(plan).apply(setup);
        // A bus without a name of its own is known by what is in it now.
        fc.pre(setup.buses.every((b) => b.name !== "" && b.name !== "Mix"));
        expect(deskMoves(once, applying(plan).apply(once))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

describe("the worked example", () => {
  const setup = exampleSetup();
  const problem = problemOf(setup, NO_PINS);
  const byName = (name: string) => problem.channels.find((c) => c.name === name);

  it("knows who plays what, what is kick and snare, and where it is heard now", () => {
    expect(byName("Kick")?.kind).toBe("kick");
    expect(byName("Lead vox")?.player).toBe("l3");
    expect(byName("Keys")?.player).toBe("l4");
    expect(byName("Bass")?.player).toBe("l5");
    expect(byName("Kick")?.player).toBe("l2");
    expect(byName("BV 1")?.player).toBeNull();
    expect(byName("Kick")?.currentInputs).toEqual([1, 2]);
    expect(problem.musicians.map((m) => m.id)).toEqual(["l2", "l3", "l4", "l5", "l6"]);
  });

  it("keeps the drum bus, which the drummer still hears, and the fold-back; the horns get one of their own", () => {
    const plan = bestPlan(problem) as AllocationPlan;
    const after = applying(plan).apply(setup);
    expect(after.buses.map((b) => b.name)).toEqual([...setup.buses.map((b) => b.name), "Horn bus"]);
    expect(after.listeners.map((l) => l.bus)).toEqual(setup.listeners.map((l) => l.bus));
    expect(patchIssues(after).filter(({ code }) => OF_REACH.includes(code))).toEqual([]);
  });

  it("takes direct outs where such a channel is taken, and switches off what has no input", () => {
    const bad = setup.channels.map((c) => ({
      ...c,
      directOut: { tap: "post-fader" as const, on: true, trim: -2 },
    }));
    const worse = { ...setup, channels: bad };
    const plan = bestPlan(problem) as AllocationPlan;
    const after = applying(plan).apply(worse);
    const own = plan.feeds.flatMap((f) => (f.bus ? [] : f.channels));
    for (const c of after.channels) expect(c.directOut.on).toBe(own.includes(c.id));
    expect(after.channels.find((c) => c.name === "Bass")?.directOut).toEqual({
      tap: "pre-fader",
      on: true,
      trim: -2,
    });
    expect(after.channels.find((c) => c.name === "Talk")?.directOut.tap).toBe("pre-eq");
  });

  it("goes by pins", () => {
    const [lead, bass] = ["Lead vox", "Bass"].map((name) => byName(name)?.id ?? "");
    const pins: HandPins = {
      channels: new Map<string, Pin>([
        [lead as string, { as: "own", width: 1, input: 16 }],
        [bass as string, { as: "out" }],
      ]),
      buses: [],
    };
    const plan = bestPlan(problemOf(setup, pins)) as AllocationPlan;
    const after = applying(plan, pins).apply(setup);
    expect(after.monitor.inputs[15]?.feed).toEqual({ kind: "channel", channel: lead, side: "both" });
    expect(plan.leftOut).toContain(bass);
    expect(after.channels.find((c) => c.id === bass)?.directOut.on).toBe(false);
  });
});

describe("instruments of several microphones", () => {
  const named = (...names: (readonly [string, Channel["kind"]])[]) =>
    problemOf(
      {
        ...blankSetup(),
        channels: names.map(([name, kind], i) => ({ ...BLANK_CHANNEL, id: `s${i}`, name, kind })),
      },
      NO_PINS,
    ).channels.map((c) => c.instrument);

  it("are told from their names", () => {
    expect(named(["Kick In", "drum"], ["Kick Out", "drum"], ["Snare", "drum"])).toEqual([
      "kick",
      "kick",
      null,
    ]);
    expect(named(["Bass", "bass"], ["Bass DI", "bass"])).toEqual(["bass", "bass"]);
    expect(named(["Keys L", "keys"], ["Keys R", "keys"])).toEqual(["keys", "keys"]);
  });

  it("are not two things of one name, nor two that are numbered", () => {
    expect(named(["Vox", "vocal"], ["Vocal", "vocal"])).toEqual([null, null]);
    expect(named(["Tom 1", "drum"], ["Tom 2", "drum"])).toEqual([null, null]);
    expect(named(["Bass DI", "bass"], ["Key DI", "keys"])).toEqual([null, null]);
  });
});

describe("channels that are grouped", () => {
  const grouped = (...list: readonly (readonly [name: string, kind: Channel["kind"], group: string])[]) => ({
    ...blankSetup(),
    channels: list.map(
      ([name, kind, group], i): Channel => ({
        ...BLANK_CHANNEL,
        ...{ id: `s${i + 1}`, name, kind, group, numbers: [i + 1] },
      }),
    ),
  });
  const sections = (setup: Setup) => problemOf(setup, NO_PINS).channels.map((c) => c.section);
  const kit = (group: string) =>
    ["Kick", "Snare", "Hat", "OH L", "OH R"].map((name) => [name, "drum", group] as const);

  it("come together within their family: two kits by two buses, each swapped as it is", () => {
    const both = grouped(
      ...kit("Kit A"),
      ...kit(" Kit B"),
      ["Conga", "percussion", ""],
      ["Bass", "bass", ""],
    );
    const setup: Setup = { ...both, monitor: { ...both.monitor, inputCount: 6 } };
    const problem = problemOf(setup, NO_PINS);
    const plan = bestPlan(problem) as AllocationPlan;
    expect(plan.feeds.map(({ inputs, bus, channels }) => [inputs, bus?.id ?? channels[0]])).toEqual([
      [[1, 2], "drums/Kit A"],
      [[3, 4], "drums/Kit B"],
      [[5], "s11"],
      [[6], "s12"],
    ]);
    const after = applying(plan).apply({ ...blankSetup(), ...setup });
    expect(after.buses.map(({ name, stereo }) => [name, stereo])).toEqual([
      ["Kit A bus", true],
      ["Kit B bus", true],
    ]);
    const swapped = {
      ...after,
      buses: after.buses.map((b) => (b.name === "Kit B bus" ? { ...b, swapped: true } : b)),
    };
    const again = bestPlan(problemOf(swapped, NO_PINS))?.feeds.filter((f) => f.isSwapped);
    expect(again?.map((f) => f.bus?.id)).toEqual(["drums/Kit B"]);
    expect(whatIf(problem, plan).map(({ code }) => code)).not.toContain("two-drummers");
  });

  it("are no section where the whole family is one group", () => {
    expect(sections(grouped(...kit("Drums"), ["Bass", "bass", "Rhythm"]))).toEqual([
      null,
      null,
      null,
      null,
      null,
      null,
    ]);
    expect(sections(grouped(["Trumpet", "horn", "Brass"], ["Flute", "horn", ""]))).toEqual(["Brass", null]);
  });
});

describe("a setup with nothing patched", () => {
  it("has everybody hear the kit afterwards, by a bus named after it", () => {
    const blank = blankSetup();
    const drums = ["Kick", "Snare", "Hat", "Tom 1", "Tom 2"].map(
      (name, i): Channel => ({ ...BLANK_CHANNEL, id: `s${i + 1}`, name, kind: "drum" }),
    );
    const voices = Array.from(
      { length: 20 },
      (_, i): Channel => ({ ...BLANK_CHANNEL, id: `v${i}`, name: `BV ${i}`, kind: "vocal" }),
    );
    const setup = { ...blank, channels: [...drums, ...voices] };
    const after = applying(bestPlan(problemOf(setup, NO_PINS)) as AllocationPlan).apply(setup);
    expect(after.buses.map((b) => b.name)).toContain("Drum bus");
    const kit = after.buses.find((b) => b.name === "Drum bus");
    expect(after.listeners.find((l) => l.kind === "drummer")?.bus).toBe(kit?.id);
    expect(kit?.sends.map((s) => [s.level, s.tap])).toEqual(drums.map(() => [0, "post-fader"]));
    expect(after.monitor.inputs[0]).toEqual({
      ...BLANK_INPUT,
      port: 1,
      feed: { kind: "bus", bus: kit?.id, side: "left" },
    });
    expect(patchIssues(after)).toEqual([]);
  });
});
