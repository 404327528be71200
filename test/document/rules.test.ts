import { describe, expect, it } from "vitest";
import { applyPlan } from "../../src/core/allocate/apply";
import { bestPlan, type Plan } from "../../src/core/allocate/plans";
import { problemOf } from "../../src/core/allocate/problem";
import { patchIssues } from "../../src/core/inputs/issues";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import type { ChannelRule } from "../../src/core/model/setup";
import { blankSetup } from "../../src/document/blank";
import { removeListener } from "../../src/document/commands/listeners";
import { editRules, resetRules } from "../../src/document/commands/rules";
import { differences } from "../../src/document/compare";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { allocatedBusName } from "../../src/text/allocate";
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
    if (!odd.ok) throw new Error(odd.why);
    const { own: _, mayLeaveOut: __, ...rest } = ALL;
    expect(ruleOf(odd.file, "s2")).toEqual(rest);
    expect(odd.notes).toHaveLength(2);
  });

  it("lose a listener who goes", () => {
    const file = applied(band(), editRules(["s2"], { reach: [ADA, MD] }));
    expect(ruleOf(applied(file, removeListener(ADA)), "s2")).toEqual({ reach: [MD] });
  });

  it("are a difference between two setups, in words", () => {
    const said = differences(band(), applied(band(), editRules(["s2"], ALL)));
    const words = JSON.stringify(said);
    for (const part of ["own must", "stereo prefer", "nobody", "Ada", "left out yes", "pre-EQ", "pre-fader"])
      expect(words).toContain(part);
  });

  it("decide: who must hear it, what it asks for, where its direct out is taken", () => {
    const file = applied(band(), editRules(["s2"], { ...ALL, reach: [ADA, "l1"] }));
    const { reach: _, tap: __, ...rest } = ALL;
    expect(wanted(file, "s2")?.rule).toEqual({ ...rest, reach: "asked" });
    const audience = file.listeners.find((l) => l.kind === "audience")?.id;
    expect(wanted(file, "s2")?.wantedBy).toContain(ADA);
    expect(wanted(file, "s2")?.wantedBy).not.toContain(audience);
    const plan = bestPlan(asked(file)) as Plan;
    const after = applyPlan(file, asked(file), plan, allocatedBusName);
    expect(after.channels.find((c) => c.id === "s2")?.directOut).toMatchObject({ on: true, tap: "pre-eq" });
  });

  it("a tap point that a rule asks for is no issue, another one is", () => {
    const file = applied(band(), editRules(["s3"], { tap: "pre-hpf" }));
    const after = applyPlan(file, asked(file), bestPlan(asked(file)) as Plan, allocatedBusName);
    const taps = (setup: SetupFile) => patchIssues(setup).filter(({ code }) => code === "tap point");
    expect(taps({ ...file, ...after })).toEqual([]);
    expect(taps(applied({ ...file, ...after }, resetRules(["s3"])))).toHaveLength(1);
  });

  it("a click is for the drummer and whoever leads, unless the user says for whom", () => {
    const drummer = band().listeners.find((l) => l.kind === "drummer")?.id;
    expect(wanted(band(), "s1")?.wantedBy).toEqual([drummer, MD]);
    expect(wanted(band(), "s3")?.wantedBy).toEqual([]);
    const file = applied(band(), editRules(["s1"], { reach: [ADA] }));
    expect(wanted(file, "s1")?.wantedBy).toEqual([ADA]);
    const all = applied(band(), editRules(["s1"], { reach: "all" }));
    expect(wanted(all, "s1")?.rule.reach).toBe("all");
  });
});
