import { describe, expect, it } from "vitest";
import { describeExcess } from "../../src/text/excess";
import { formatGlimpse } from "../../src/text/glimpse";
import {
  describeReadNote,
  describeReadRefusal,
  type ReadNote,
  type ReadRefusal,
} from "../../src/text/reading";
import { heldSentences, type OfEach } from "./of-each";

const at = "channels[2].pan";
const named = { name: "Hat" };
const what = "setup";

const NOTES: OfEach<ReadNote> = {
  replaced: [
    { code: "replaced", at, given: 9, allowed: { min: -1, max: 1 }, used: 0 },
    { code: "replaced", at, given: undefined, allowed: "text", used: "Channel" },
    { code: "replaced", at, given: "many", allowed: "whole number", used: 16 },
    { code: "replaced", at, given: { a: "list" }, allowed: "text", used: "" },
    { code: "replaced", at, given: -3, allowed: "true or false", used: false },
    { code: "replaced", at, given: { a: "object" }, allowed: "list", used: { a: "empty list" } },
    { code: "replaced", at, given: null, allowed: ["left", "right", 2], used: "left" },
  ],
  "left out": [{ code: "left out", at, given: "loud", allowed: ["must", "prefer"] }],
  "left empty": [{ code: "left empty", at }],
  "too long": [{ code: "too long", at, letters: 2001, kept: 2000 }],
  "no object": [
    { code: "no object", at, given: undefined },
    { code: "no object", at, given: true },
  ],
  unknown: [{ code: "unknown", at: "“two words”" }],
  "no ticks": [
    { code: "no ticks", at, given: undefined },
    { code: "no ticks", at, given: 5 },
  ],
  "no list of ticks": [{ code: "no list of ticks", at }],
  "bad ticks": [{ code: "bad ticks", at, bad: 1, all: 2 }],
  "no date": [{ code: "no date", at: "buses[0].measured" }],
  "not square": [{ code: "not square", at, size: 2 }],
  "id given": [{ code: "id given", ...named }],
  "second drummer": [{ code: "second drummer", ...named }],
  "no such bus": [{ code: "no such bus", ...named }],
  "listener added": [{ code: "listener added", kind: "drummer" }],
  "listener turned": [{ code: "listener turned", kind: "audience", ...named }],
  "no such send": [{ code: "no such send", ...named }],
  "no such feed": [
    { code: "no such feed", index: 2, isFree: true },
    { code: "no such feed", index: 2, isFree: false },
  ],
  "no such reach": [{ code: "no such reach", ...named }],
  "no such piece": [{ code: "no such piece", ...named }],
  "no such figures": [{ code: "no such figures", ...named }],
  "check ended": [{ code: "check ended" }],
  "hits removed": [{ code: "hits removed" }],
  "ticks removed": [{ code: "ticks removed" }],
  "trace ended": [{ code: "trace ended" }],
  "no such first": [{ code: "no such first" }],
  more: [{ code: "more", count: 3 }],
};

const REFUSALS: OfEach<ReadRefusal> = {
  "not ours": [{ code: "not ours", what, given: { a: "empty list" } }],
  "other format": [{ code: "other format", what, given: "drawing", format: "hatside-setup" }],
  "not JSON": [{ code: "not JSON", what: "desk", reason: "Unexpected end." }],
  "no version": [
    { code: "no version", given: 1.5, oldest: 1, newest: 3 },
    { code: "no version", given: undefined, oldest: 3, newest: 3 },
  ],
  newer: [{ code: "newer", what, version: 9, newest: 3 }],
  "not migrated": [{ code: "not migrated", version: 2, reason: "no such hand." }],
  "too many": [{ code: "too many", at: "channels", count: 513, limit: 512 }],
  "long id": [{ code: "long id", at: "channels[0].id", letters: 41, limit: 40 }],
  "own fault": [{ code: "own fault", what, reason: "" }],
  "no setup": [{ code: "no setup" }],
  "from nowhere": [{ code: "from nowhere" }],
  "for nothing": [{ code: "for nothing" }],
};

describe("the wording of what was read", () => {
  it("is held, where something was not taken as it stood", () => {
    expect(heldSentences(Object.values(NOTES).flat().map(describeReadNote))).toMatchSnapshot();
  });

  it("is held, where nothing was taken", () => {
    expect(heldSentences(Object.values(REFUSALS).flat().map(describeReadRefusal))).toMatchSnapshot();
  });

  it("is held, where a setup would hold too much", () => {
    const of = ["channels", "pieces", "buses", "listeners", "extra", "inputs"] as const;
    expect(
      heldSentences(of.map((each) => describeExcess({ of: each, count: 33, limit: 32 }))),
    ).toMatchSnapshot();
  });

  it("shows 24 letters of a text whole and no more of a longer one", () => {
    expect(formatGlimpse("a".repeat(24))).toBe(`“${"a".repeat(24)}”`);
    expect(formatGlimpse("b".repeat(25))).toBe(`“${"b".repeat(24)}…”`);
  });
});
