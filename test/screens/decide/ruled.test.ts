import { describe, expect, it } from "vitest";
import { problemOf } from "../../../src/core/allocate/problem";
import { BLANK_CHANNEL } from "../../../src/core/model/defaults";
import type { Channel } from "../../../src/core/model/setup";
import { blankSetup } from "../../../src/document/blank";
import {
  changedOf,
  chosenOf,
  common,
  concerns,
  ruledOf,
  sharedKinds,
} from "../../../src/screens/decide/ruled";

const band = (...channels: (Pick<Channel, "name" | "kind"> & Partial<Channel>)[]) => {
  const setup = {
    ...blankSetup("Band"),
    channels: channels.map((c, i): Channel => ({ ...BLANK_CHANNEL, id: `s${i + 1}`, ...c })),
  };
  return ruledOf(setup, problemOf(setup, { channels: new Map(), buses: [] }));
};
const ids = (some: readonly { channel: Channel }[]) => some.map(({ channel }) => channel.id);

const all = band(
  { name: "Kick", kind: "drum" },
  { name: "Hat", kind: "drum" },
  { name: "Tom", kind: "drum", rule: { own: "must" } },
  { name: "Click", kind: "click" },
  { name: "Keys", kind: "keys", lines: 2, rule: { own: "must", tap: "pre-eq" } },
  { name: "Pads", kind: "keys", lines: 2, keepSides: true },
  { name: "Bass", kind: "bass" },
);

describe("whose rules are shown", () => {
  it("are all, a kind, one channel, or those that are ticked", () => {
    expect(ids(chosenOf(all, "all", []))).toHaveLength(7);
    expect(ids(chosenOf(all, "kind drum", []))).toEqual(["s2", "s3"]);
    expect(ids(chosenOf(all, "channel s4", ["s1"]))).toEqual(["s4"]);
    expect(ids(chosenOf(all, "ticked", ["s6", "s1"]))).toEqual(["s1", "s6"]);
    expect(chosenOf(all, "channel s9", [])).toEqual([]);
  });

  it("kinds of one channel are not offered, the others in the order of the inputs", () => {
    expect(sharedKinds(all)).toEqual([
      { kind: "drum", count: 2 },
      { kind: "keys", count: 2 },
    ]);
  });
});

describe("a rule of several channels", () => {
  const of = (...which: number[]) => all.filter((_, i) => which.includes(i));

  it("is the default, changed for all alike, or not the same", () => {
    expect(changedOf(of(0, 1), "own")).toEqual({ is: "default" });
    expect(changedOf(of(2, 4), "own")).toEqual({ is: "changed", to: "must" });
    expect(changedOf(of(2, 4), "tap")).toEqual({ is: "different" });
    expect(changedOf(of(0, 2), "own")).toEqual({ is: "different" });
    expect(changedOf(of(2, 0), "own")).toEqual({ is: "different" });
  });

  it("has one default where that of all is the same", () => {
    expect(common(of(0, 1).map((r) => r.byKind.reach))).toEqual({ value: "all" });
    expect(common(of(3, 4).map((r) => r.byKind.reach))).toBeNull();
    expect(common([["l1"], ["l1"]])).toEqual({ value: ["l1"] });
    expect(common([])).toBeNull();
  });

  it("is offered only where it makes a difference", () => {
    const concerned = (key: "shares" | "stereo" | "own") =>
      all.filter((r) => concerns(key, r)).map(({ channel }) => channel.name);
    expect(concerned("shares")).toEqual(["Kick", "Hat", "Tom", "Keys", "Pads", "Bass"]);
    expect(concerned("stereo")).toEqual(["Kick", "Hat", "Tom", "Keys"]);
    expect(concerned("own")).toHaveLength(all.length);
  });
});
