import { describe, expect, it } from "vitest";
import { applyPlan } from "../../src/core/allocate/apply";
import { defaultRule } from "../../src/core/allocate/default-rule";
import { type AllocationPlan, bestPlan } from "../../src/core/allocate/plans";
import { problemOf } from "../../src/core/allocate/problem";
import { patchIssues } from "../../src/core/inputs/issues";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import type { ChannelRule } from "../../src/core/model/setup";
import { blankSetup } from "../../src/document/blank";
import { removeListener } from "../../src/document/commands/listeners";
import { editRules, resetRules } from "../../src/document/commands/rules";
import { compareSetups } from "../../src/document/compare";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { allocatedBusName } from "../../src/text/allocate";
import { describeComparison } from "../../src/text/compare";
import { applied } from "./commands";

const ADA = "l8";
const MD = "l9";

const band = (): SetupFile => {
  const blank = blankSetup("Four");
  const [someone] = blank.listeners;
  if (!someone) throw new Error("a new setup has nobody");
  const performer = { ...someone, kind: "performer", bus: null } as const;
  return {
    ...blank,
    channels: (["click", "horn", "vocal", "playback"] as const).map((kind, i) => ({
      ...BLANK_CHANNEL,
      id: `s${i + 1}`,
      name: kind,
      kind,
    })),
    listeners: [
      ...blank.listeners,
      { ...performer, id: ADA, name: "Ada, horn" },
      { ...performer, id: MD, name: "Bo, MD" },
    ],
  };
};

const asked = (file: SetupFile) => problemOf(file, { channels: new Map(), buses: [] });
const wanted = (file: SetupFile, id: string) => asked(file).channels.find((c) => c.id === id);
const ruleOf = (file: SetupFile, id: string) => file.channels.find((c) => c.id === id)?.rule;

const ALL: ChannelRule = {
  own: "must",
  stereo: "prefer",
  shares: "nobody",
  reach: [ADA],
  mayLeaveOut: true,
  tap: "pre-eq",
  send: "pre-fader",
};

describe("the rule that a channel has by its kind", () => {
  const byKind = (id: string) => {
    const file = band();
    const channel = file.channels.find((c) => c.id === id);
    const kind = wanted(file, id)?.kind;
    if (!channel || !kind) throw new Error(`no channel ${id}`);
    return defaultRule(file, channel, kind);
  };

  it("is that of the table, with whom it must reach", () => {
    const drummer = band().listeners.find((l) => l.kind === "drummer")?.id;
    expect(byKind("s1")).toMatchObject({ own: "must", shares: "nobody", reach: [drummer, MD] });
    expect(byKind("s2")).toMatchObject({
      own: "no-matter",
      shares: "anyone",
      reach: "all",
      mayLeaveOut: false,
    });
    expect(byKind("s4")).toMatchObject({ own: "prefer", stereo: "prefer", send: "post-fader" });
  });

  it("comes to the same plan when it is written out for every channel", () => {
    const file = band();
    const written = applied(file, ...file.channels.map(({ id }) => editRules([id], byKind(id))));
    expect(written.channels.every((c) => c.rule)).toBe(true);
    expect(bestPlan(asked(written))).toEqual(bestPlan(asked(file)));
    const outs = (of: SetupFile) =>
      applyPlan(of, asked(of), bestPlan(asked(of)) as AllocationPlan, allocatedBusName).channels.map(
        (c) => c.directOut,
      );
    expect(outs(written)).toEqual(outs(file));
  });
});

describe("rules of channels", () => {
  it("are changed for several at once, taken back one by one, and all together", () => {
    const file = applied(band(), editRules(["s2", "s3"], { own: "must", tap: "pre-eq" }));
    expect(["s1", "s2", "s3"].map((id) => ruleOf(file, id))).toEqual([
      undefined,
      { own: "must", tap: "pre-eq" },
      { own: "must", tap: "pre-eq" },
    ]);
    const less = applied(file, editRules(["s2"], { tap: null }));
    expect(ruleOf(less, "s2")).toEqual({ own: "must" });
    const none = applied(less, editRules(["s2"], { own: null }), resetRules(["s3"]));
    expect(none.channels.map((c) => "rule" in c)).toEqual([false, false, false, false]);
    // What changes nothing is no step.
    expect(applied(less, editRules(["s2"], { own: "must" }), resetRules(["s1"]))).toBe(less);
  });

  it("come back from a file as they were; what is not known there is said and left out", () => {
    const file = applied(band(), editRules(["s2"], ALL));
    const read = readSetupText(printSetup(file));
    expect(read.ok && [read.file, read.notes]).toEqual([file, []]);
    const text = printSetup(file)
      .replace('"own": "must"', '"own": "always"')
      .replace('"mayLeaveOut": true', '"mayLeaveOut": 1');
    const odd = readSetupText(text);
    if (!odd.ok) throw new Error(odd.why.code);
    const { own: _, mayLeaveOut: __, ...rest } = ALL;
    expect(ruleOf(odd.file, "s2")).toEqual(rest);
    expect(odd.notes).toHaveLength(2);
  });

  it("lose a listener who is not in the file, or is named twice, with a note", () => {
    const text = printSetup(applied(band(), editRules(["s2"], { reach: [ADA, MD] })));
    const from = text.lastIndexOf(`"${MD}"`, text.indexOf('"reach"') + 40);
    const odd = readSetupText(`${text.slice(0, from)}"l77", "${ADA}"${text.slice(from + MD.length + 2)}`);
    if (!odd.ok) throw new Error(odd.why.code);
    expect(ruleOf(odd.file, "s2")).toEqual({ reach: [ADA] });
    expect(odd.notes).toEqual([{ code: "no such reach", name: expect.stringContaining("horn") }]);
  });

  it("lose a listener who goes", () => {
    const file = applied(band(), editRules(["s2"], { reach: [ADA, MD] }));
    expect(ruleOf(applied(file, removeListener(ADA)), "s2")).toEqual({ reach: [MD] });
  });

  it("are a difference between two setups, in words", () => {
    const words = describeComparison(compareSetups(band(), applied(band(), editRules(["s2"], ALL)))).join();
    for (const part of [
      "own: must",
      "stereo: prefer",
      "nobody",
      "Ada",
      "left out: yes",
      "pre-EQ",
      "pre-fader",
    ])
      expect(words).toContain(part);
  });

  it("decide: who must hear it, what it asks for, where its direct out is taken", () => {
    const audience = band().listeners.find((l) => l.kind === "audience")?.id ?? "";
    const file = applied(band(), editRules(["s2"], { ...ALL, reach: [ADA, audience] }));
    const { reach: _, tap: __, ...rest } = ALL;
    expect(wanted(file, "s2")?.rule).toEqual({ ...rest, reach: "asked" });
    expect(ruleOf(file, "s2")?.reach).toEqual([ADA, audience]);
    expect(wanted(file, "s2")?.wantedBy).toEqual([ADA]);
    const plan = bestPlan(asked(file)) as AllocationPlan;
    const after = applyPlan(file, asked(file), plan, allocatedBusName);
    expect(after.channels.find((c) => c.id === "s2")?.directOut).toMatchObject({ on: true, tap: "pre-eq" });
  });

  it("decide where a send to a bus is taken, also where the bus was there before", () => {
    const both = { own: "no", stereo: "no" } as const;
    const planned = (file: SetupFile): SetupFile => ({
      ...file,
      ...applyPlan(file, asked(file), bestPlan(asked(file)) as AllocationPlan, allocatedBusName),
    });
    const tapOf = (file: SetupFile) =>
      file.buses.flatMap(({ sends }) => sends.filter((s) => s.on && s.channel === "s2")).map((s) => s.tap);
    const horns = { ...band(), channels: band().channels.map((c) => ({ ...c, kind: "horn" as const })) };
    const few = { ...horns, monitor: { ...horns.monitor, inputCount: 2 } };
    const once = planned(applied(few, editRules(["s2", "s3"], both)));
    expect(tapOf(once)).toEqual(["pre-fader"]);
    const twice = planned(applied(once, editRules(["s2"], { send: "post-fader" })));
    expect(tapOf(twice)).toEqual(["post-fader"]);
    // What the user set at the send stays where no rule was changed.
    expect(tapOf(planned(applied(twice, editRules(["s2"], { send: null }))))).toEqual(["post-fader"]);
  });

  it("a tap point that a rule asks for is no issue, another one is", () => {
    const file = applied(band(), editRules(["s3"], { tap: "pre-hpf" }));
    const after = applyPlan(file, asked(file), bestPlan(asked(file)) as AllocationPlan, allocatedBusName);
    const taps = (setup: SetupFile) => patchIssues(setup).filter(({ code }) => code === "tap point");
    expect(taps({ ...file, ...after })).toEqual([]);
    expect(taps(applied({ ...file, ...after }, resetRules(["s3"])))).toHaveLength(1);
  });

  it("a click is for the drummer and whoever leads, unless the user says for whom", () => {
    const drummer = band().listeners.find((l) => l.kind === "drummer")?.id;
    expect(wanted(band(), "s1")?.wantedBy).toEqual([drummer, MD]);
    expect(wanted(band(), "s3")?.wantedBy).toEqual([]);
    const named = (name: string): SetupFile => {
      const file = band();
      return { ...file, listeners: file.listeners.map((l) => (l.id === MD ? { ...l, name } : l)) };
    };
    for (const name of ["Bo, M.D.", "MD", "Conductor", "Bandleader"])
      expect(wanted(named(name), "s1")?.wantedBy, name).toContain(MD);
    for (const name of ["Bo, lead vox", "Cheerleader", "Mdina"])
      expect(wanted(named(name), "s1")?.wantedBy, name).not.toContain(MD);
    const file = applied(band(), editRules(["s1"], { reach: [ADA] }));
    expect(wanted(file, "s1")?.wantedBy).toEqual([ADA]);
    const all = applied(band(), editRules(["s1"], { reach: "all" }));
    expect(wanted(all, "s1")?.rule.reach).toBe("all");
  });
});
