import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { MonitorInput } from "../../src/core/model/setup";
import { editBus, setSend, swapBus } from "../../src/document/commands/buses";
import {
  addChannel,
  dragPan,
  duplicateChannel,
  editChannel,
  moveChannel,
  removeChannel,
} from "../../src/document/commands/channels";
import { moveInput, setInput, setInputCount } from "../../src/document/commands/inputs";
import { editPiece, movePiece } from "../../src/document/commands/kit";
import { addListener, editListener, moveListener } from "../../src/document/commands/listeners";
import {
  editDesk,
  editEarphone,
  editPreferences,
  rename,
  setNote,
} from "../../src/document/commands/settings";
import { compareSetups } from "../../src/document/compare";
import { readSetup } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { templateSetup } from "../../src/document/templates";
import type { Difference } from "../../src/text/compare";
import { bandSetup } from "./band";
import { applied, commands } from "./commands";
import { measured } from "./measured";

const FULL = join(import.meta.dirname, "../fixtures/setup-v2.json");
const example = bandSetup();
const found = (from: SetupFile, to: SetupFile): readonly Difference[] => compareSetups(from, to).differences;
/** What a difference is about. */
const aboutOf = (d: Difference): unknown[] => {
  if (d.code === "changed") return d.channel === null ? [d.name, d.field] : [d.name, d.channel, d.field];
  if (d.code === "input") return [d.index];
  if (d.code === "sent" || d.code === "not sent") return [d.bus, d.channel];
  return "name" in d ? [d.name] : "kind" in d ? [d.kind] : [];
};
/** Each difference by its part, its code and what it is about. */
const coded = (from: SetupFile, to: SetupFile): string[] =>
  found(from, to).map((d) => [d.part, d.code, ...aboutOf(d)].join(" | "));
const pieceOf = (name: string): string => example.kit.pieces.find((p) => p.name === name)?.id ?? "";
const idOf = (name: string): string => example.channels.find((s) => s.name === name)?.id ?? "";

/** A setup as far as a comparison is about it: without its name, ticks and answers, sends in the order of channels. */
const compared = ({
  name: _,
  check: _c,
  lineCheck: _l,
  trace: _t,
  deskTicks: _d,
  tickLog: _g,
  ...file
}: SetupFile) => {
  const inputs: (MonitorInput | null)[] = [...file.monitor.inputs];
  while (inputs.at(-1) === null) inputs.pop();
  return JSON.stringify({
    ...file,
    monitor: { ...file.monitor, inputs },
    buses: file.buses.map((s) => ({
      ...s,
      sends: [...s.sends].sort((a, b) => a.channel.localeCompare(b.channel)),
    })),
  });
};

describe("one change at a time", () => {
  it.each([
    [
      dragPan(idOf("Hat"), -0.4),
      [{ part: "Channels", name: "Hat", of: "channel", field: "pan", was: 0.7, is: -0.4 }],
    ],
    [
      editChannel(idOf("Bass"), { gatedRms: -20, muted: true }),
      [
        { name: "Bass", field: "muted", was: false, is: true },
        { name: "Bass", field: "gatedRms", was: -22, is: -20 },
      ],
    ],
    [
      editChannel(idOf("Hat"), { name: "Hi-hat" }),
      [{ name: "Hat", field: "name", was: "Hat", is: "Hi-hat" }],
    ],
    [addChannel(null), [{ part: "Channels", code: "new", kind: "channel", name: "Channel" }]],
    [moveChannel(idOf("Hat"), idOf("Tom 1")), [{ part: "Channels", code: "order", kind: "channel" }]],
    [editChannel(idOf("Bass"), { peak: null }), [{ field: "peak", was: -10, is: null }]],
    [editChannel(idOf("Bass"), { piece: "p1" }), [{ field: "piece", was: null, is: "p1" }]],
    [
      swapBus("m1"),
      [
        { part: "Buses", of: "bus", field: "swapped", was: false, is: true },
        { part: "Inputs", code: "input", index: 0, is: { feed: { side: "right" } } },
        { part: "Inputs", code: "input", index: 1, is: { feed: { side: "left" } } },
      ],
    ],
    [editBus("m1", { trim: -3 }), [{ kind: "bus", name: "Drums", field: "trim", was: 0, is: -3 }]],
    [setSend("m1", idOf("Hat"), null), [{ part: "Buses", code: "not sent", bus: "Drums", channel: "Hat" }]],
    [setSend("m1", idOf("Bass"), {}), [{ part: "Buses", code: "sent", bus: "Drums", channel: "Bass" }]],
    [
      setSend("m1", idOf("Hat"), { pan: 0.4 }),
      [{ part: "Buses", of: "send", name: "Drums", channel: "Hat", field: "pan", was: null, is: 0.4 }],
    ],
    [addListener("Sol, guitar"), [{ part: "Listeners", code: "new", kind: "listener", name: "Sol, guitar" }]],
    [editListener("l3", { bus: null }), [{ of: "listener", field: "bus", was: "m1", is: null }]],
    [
      editDesk({ law: "linear", outputDbu: 18 }),
      [
        { part: "Desk", kind: null, of: "desk", field: "law", was: "sine", is: "linear" },
        { part: "Desk", kind: null, of: "desk", field: "outputDbu", was: 22, is: 18 },
      ],
    ],
    [editPreferences({ first: "l1" }), [{ part: "Preferences", field: "first", was: "l2", is: "l1" }]],
    [editEarphone({}), [{ part: "Earphones", code: "earphone added" }]],
    [setInputCount(12), [{ part: "Inputs", of: "monitor", field: "inputCount", was: 16, is: 12 }]],
    [setInput(2, null), [{ code: "input", index: 2, was: { feed: { channel: idOf("Bass") } }, is: null }]],
    [
      setInput(17, example.monitor.inputs[2] ?? null),
      [{ code: "input", index: 17, was: null, is: { feed: { channel: idOf("Bass") } } }],
    ],
    [
      movePiece("p1", 0.25, -0.5),
      [{ part: "Kit", kind: "piece", name: "Kick", field: "place", was: [0, 0.75], is: [0.25, -0.5] }],
    ],
    [moveListener("l3", -1.5, -2), [{ of: "listener", field: "place", was: [0, 3], is: [-1.5, -2] }]],
    [rename("For next week"), []],
    [setNote(""), [{ part: "Setup", kind: null, of: "setup", field: "note", is: "" }]],
    [editPiece(pieceOf("Hat"), { limbs: [] }), [{ field: "limbs", was: ["hand", "hat-foot"], is: [] }]],
  ])("%#: $label", (command, differences) => {
    expect(found(example, applied(example, command))).toMatchObject(differences);
  });

  it("names of a channel that is gone what went with it", () => {
    expect(coded(example, applied(example, removeChannel(idOf("Bass"))))).toEqual([
      "Channels | gone | Bass",
      "Inputs | input | 2",
    ]);
  });

  it("tells two pans apart that the desk prints alike", () => {
    const near = applied(example, dragPan(idOf("Hat"), 0.701));
    expect(found(example, near)).toMatchObject([{ field: "pan", was: 0.7, is: 0.701 }]);
  });

  it("names both inputs when a feed moves", () => {
    const moved = applied(example, moveInput(2, 3));
    expect(coded(example, moved)).toEqual(["Inputs | input | 2", "Inputs | input | 3"]);
  });

  it("names earphone data that went", () => {
    const ear = applied(example, editEarphone({}));
    expect(found(ear, example)).toEqual([{ part: "Earphones", code: "earphone gone" }]);
  });

  it("names a recording that came, went or has other figures", () => {
    const recorded = (name: string, rms = -30): SetupFile => ({
      ...example,
      recording: { name, seconds: 9, channels: [measured("s1", { rms })], correlation: [[1]] },
    });
    expect(found(example, recorded("Night"))).toMatchObject([{ code: "measured", was: null, is: "Night" }]);
    expect(found(recorded("Night"), example)).toMatchObject([{ code: "measured", was: "Night", is: null }]);
    expect(coded(recorded("Night"), recorded("Night", -31))).toEqual(["Recording | figures | Night"]);
    expect(coded(recorded("Night"), recorded("Day", -31))).toEqual(["Recording | changed |  | name"]);
  });
});

describe("what is the same thing", () => {
  it("is known by its name where the ids are those of another setup", () => {
    const small = templateSetup(3, "right");
    const large = templateSetup(4, "right");
    expect(small.channels[1]?.id).toBe(large.channels[1]?.id);
    expect(coded(small, large)).toEqual([
      "Kit | order | piece",
      "Channels | new | Snare",
      "Channels | changed | Overhead L | numbers",
      "Channels | changed | Overhead R | numbers",
      "Buses | sent | Drums | Snare",
    ]);
  });

  it("is known by id and name first, so that two of one name stay themselves", () => {
    const twice = applied(example, duplicateChannel(idOf("Hat")), editChannel("s19", { name: "Hat" }));
    const changed = applied(twice, dragPan("s19", -1));
    expect(twice.channels.map((s) => s.name).filter((n) => n === "Hat")).toHaveLength(2);
    expect(found(twice, changed)).toMatchObject([{ name: "Hat", field: "pan", was: 0.7, is: -1 }]);
  });

  it("is followed through all that refers to it", () => {
    const ids: { readonly [id: string]: string } = { s3: "x1", p3: "x2", m1: "x3", l2: "x4" };
    const other = JSON.parse(JSON.stringify(example), (_, value) => ids[value] ?? value) as SetupFile;
    expect(other.channels.some((s) => s.id === "x1")).toBe(true);
    expect(found(example, other)).toEqual([]);
    expect(found(other, example)).toEqual([]);
  });

  it("is not another thing that happens to have its id", () => {
    const without = applied(example, removeChannel(idOf("Bass")));
    const stranger = { ...example.channels[0], id: "gone s9", name: "Stranger", piece: null } as const;
    const hostile = { ...without, channels: [...without.channels, stranger] } as SetupFile;
    expect(coded(example, hostile)).toContain("Channels | new | Stranger");
    expect(coded(example, hostile)).toContain("Channels | gone | Bass");
  });
});

/** Another text in its place; a law or a listener's kind is looked up in its table, so it is another of them. */
const anotherText = (value: string, at: string): string => {
  if (at.endsWith(".law")) return "linear";
  if (/^\.listeners\.\d+\.kind$/.test(at)) return value === "performer" ? "drummer" : "performer";
  return `${value}x`;
};

/** Every setup that is another in one single value, and where. */
const mutants = function* (value: unknown, at = ""): Generator<readonly [at: string, value: unknown]> {
  if (typeof value === "number") yield [at, value === 1 ? 2 : 1];
  if (typeof value === "boolean") yield [at, !value];
  if (typeof value === "string") yield [at, anotherText(value, at)];
  if (typeof value !== "object" || value === null) return;
  for (const [key, inner] of Object.entries(value))
    for (const [where, other] of mutants(inner, `${at}.${key}`))
      yield [where, Array.isArray(value) ? value.with(Number(key), other) : { ...value, [key]: other }];
};

it("sees every value that a setup has, one by one", () => {
  const { ok, ...read } = readSetup(JSON.parse(readFileSync(FULL, "utf8")));
  if (!ok || !("file" in read)) throw new Error("the frozen setup cannot be read");
  const { file } = read;
  const all = [...mutants(file)];
  // Names, ticks and answers are no difference, and an id is only a key.
  const none = /^\.(format|version|name|check|lineCheck)\b|\.id$/;
  const unseen = all.filter(([, other]) => found(file, other as SetupFile).length === 0);
  expect(all.length).toBeGreaterThan(300);
  expect(file.recording && file.earphone).not.toBeNull();
  expect(unseen.map(([at]) => at).filter((at) => !none.test(at))).toEqual([]);
});

describe("any two setups", () => {
  const setups = fc.array(commands, { maxLength: 8 }).map((done) => applied(example, ...done));

  it("that differ have a difference, and a setup has none from itself", () => {
    fc.assert(
      fc.property(setups, setups, (a, b) => {
        expect(found(a, a)).toEqual([]);
        expect(found(a, b).length === 0).toBe(compared(a) === compared(b));
      }),
      { numRuns: 300 },
    );
  });
});
