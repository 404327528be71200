import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { MonitorInput } from "../../src/core/model/setup";
import { addBus, editBus, setSend, swapBus } from "../../src/document/commands/buses";
import {
  addChannel,
  dragPan,
  duplicateChannel,
  editChannel,
  moveChannel,
  removeChannel,
} from "../../src/document/commands/channels";
import { editInput, moveInput, setInput, setInputCount } from "../../src/document/commands/inputs";
import { addPiece, editPiece, movePiece } from "../../src/document/commands/kit";
import { addListener, editListener, moveListener } from "../../src/document/commands/listeners";
import {
  editDesk,
  editEarphone,
  editPreferences,
  rename,
  setNote,
} from "../../src/document/commands/settings";
import { differences } from "../../src/document/compare";
import { readSetup } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { templateSetup } from "../../src/document/templates";
import { bandSetup } from "./band";
import { applied, commands } from "./commands";

const FULL = join(import.meta.dirname, "../fixtures/setup-v2.json");
const example = bandSetup();
const said = (from: SetupFile, to: SetupFile): string[] =>
  differences(from, to).map(({ part, says }) => `${part} | ${says}`);
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
    [dragPan(idOf("Hat"), -0.4), ["Channels | Hat: pan L40 instead of R70"]],
    [
      editChannel(idOf("Bass"), { gatedRms: -20, muted: true }),
      [
        "Channels | Bass: muted instead of not muted",
        "Channels | Bass: gated RMS −20 dBFS instead of −22 dBFS",
      ],
    ],
    [editChannel(idOf("Hat"), { name: "Hi-hat" }), ["Channels | Hat: name Hi-hat instead of Hat"]],
    [addChannel(null), ["Channels | Channel is new"]],
    [moveChannel(idOf("Hat"), idOf("Tom 1")), ["Channels | The channels are in another order"]],
    [editChannel(idOf("Bass"), { peak: null }), ["Channels | Bass: peak not entered instead of −10 dBFS"]],
    [editChannel(idOf("Bass"), { piece: "p1" }), ["Channels | Bass: kit piece “Kick” instead of none"]],
    [
      swapBus("m1"),
      [
        "Buses | Drums: L/R swapped instead of L/R normal",
        "Inputs | Input 1: “Drums” R instead of “Drums” L",
        "Inputs | Input 2: “Drums” L instead of “Drums” R",
      ],
    ],
    [editBus("m1", { trim: -3 }), ["Buses | Drums: trim −3 dB instead of 0 dB"]],
    [addBus(false, "Voices"), ["Buses | Voices is new"]],
    [setSend("m1", idOf("Hat"), null), ["Buses | Drums: Hat is no longer sent to it"]],
    [setSend("m1", idOf("Bass"), {}), ["Buses | Drums: Bass is now sent to it"]],
    [
      setSend("m1", idOf("Hat"), { pan: 0.4 }),
      ["Buses | Drums: Hat with pan R40 instead of follows channel pan"],
    ],
    [addListener("Sol, guitar"), ["Listeners | Sol, guitar is new"]],
    [
      editListener("l3", { flipped: true }),
      ["Listeners | Tobi, lead vox: mixer flips L/R instead of mixer does not flip L/R"],
    ],
    [editListener("l3", { bus: null }), ["Listeners | Tobi, lead vox: hears no bus instead of “Drums”"]],
    [
      editDesk({ law: "linear", outputDbu: 18 }),
      [
        "Desk | Pan law Linear instead of Constant power, sin/cos",
        "Desk | Output at 0 dBFS 18 dBu instead of 22 dBu",
      ],
    ],
    [
      editPreferences({ first: "l1" }),
      ["Preferences | Who matters most: “Audience” instead of “Mara, drums”"],
    ],
    [editEarphone({}), ["Earphones | Earphone data added"]],
    [setInputCount(12), ["Inputs | Number of inputs 12 instead of 16"]],
    [setInput(2, null), ["Inputs | Input 3: nothing instead of “Bass”"]],
    [
      editInput(10, { port: null, on: true, trim: -2 }),
      ["Inputs | Input 11: “BV 2”, trim −2 dB instead of “BV 2”, off"],
    ],
    [
      movePiece("p1", 0.25, -0.5),
      [
        "Kit | Kick: place 0.25 m right of the throne, 0.5 m behind instead of 0 m right of the throne, 0.75 m in front",
      ],
    ],
    [addPiece("percussion", "Cowbell"), ["Kit | Cowbell is new"]],
    [rename("For next week"), []],
    [
      setNote(""),
      [
        "Setup | Note none instead of “Invented band, hall, people and levels: a worked example to try things on.”",
      ],
    ],
    [
      editPiece(pieceOf("Hat"), { limbs: [] }),
      ["Kit | Hat: played with nothing instead of a hand and the hat foot"],
    ],
    [
      editPiece(pieceOf("Kick"), { limbs: ["whole"] }),
      ["Kit | Kick: played with the whole kit instead of the kick foot"],
    ],
    [
      editDesk({ law: "custom", centreDb: 4 }),
      [
        "Desk | Pan law Custom centre drop instead of Constant power, sin/cos",
        "Desk | Custom centre drop 4 dB instead of 3 dB",
      ],
    ],
    [
      movePiece(pieceOf("Kick"), -0.25, 0),
      [
        "Kit | Kick: place 0.25 m left of the throne, 0 m in front instead of 0 m right of the throne, 0.75 m in front",
      ],
    ],
    [
      moveListener("l3", -1.5, -2),
      [
        "Listeners | Tobi, lead vox: place 1.5 m to house left, 2 m behind instead of 0 m to house right, 3 m in front",
      ],
    ],
    [
      editChannel(idOf("Bass"), {
        extra: [
          { head: "Mic", value: "DI" },
          { head: "Stand", value: "low" },
        ],
      }),
      ["Channels | Bass: extra columns Mic: DI, Stand: low instead of none"],
    ],
    [setInput(17, example.monitor.inputs[2] ?? null), ["Inputs | Input 18: “Bass” instead of nothing"]],
  ])("%#: $label", (command, says) => {
    expect(said(example, applied(example, command))).toEqual(says);
  });

  it("says of a channel that is gone what went with it", () => {
    const [first, ...more] = said(example, applied(example, removeChannel(idOf("Bass"))));
    expect(first).toBe("Channels | Bass is not there");
    expect(more).toEqual(["Inputs | Input 3: nothing instead of “Bass”"]);
  });

  it("tells two pans apart that the console prints alike", () => {
    const near = applied(example, dragPan(idOf("Hat"), 0.701));
    expect(said(example, near)).toEqual(["Channels | Hat: pan R70 (0.701) instead of R70 (0.7)"]);
  });

  it("says both inputs when a feed moves", () => {
    const moved = applied(example, moveInput(2, 3));
    expect(said(example, moved)).toEqual([
      "Inputs | Input 3: “Guitar” instead of “Bass”",
      "Inputs | Input 4: “Bass” instead of “Guitar”",
    ]);
  });
});

describe("what is the same thing", () => {
  it("is known by its name where the ids are those of another setup", () => {
    const small = templateSetup(3, "right");
    const large = templateSetup(4, "right");
    expect(small.channels[1]?.id).toBe(large.channels[1]?.id);
    expect(said(small, large)).toEqual([
      "Kit | The pieces are in another order",
      "Channels | Snare is new",
      "Channels | Overhead L: channel number 3 instead of 2",
      "Channels | Overhead R: channel number 4 instead of 3",
      "Buses | Drums: Snare is now sent to it",
    ]);
  });

  it("is known by id and name first, so that two of one name stay themselves", () => {
    const twice = applied(example, duplicateChannel(idOf("Hat")), editChannel("s19", { name: "Hat" }));
    const changed = applied(twice, dragPan("s19", -1));
    expect(twice.channels.map((s) => s.name).filter((n) => n === "Hat")).toHaveLength(2);
    expect(said(twice, changed)).toEqual(["Channels | Hat: pan L100 instead of R70"]);
  });

  it("is followed through all that refers to it", () => {
    const ids: { readonly [id: string]: string } = { s3: "x1", p3: "x2", m1: "x3", l2: "x4" };
    const other = JSON.parse(JSON.stringify(example), (_, value) => ids[value] ?? value) as SetupFile;
    expect(other.channels.some((s) => s.id === "x1")).toBe(true);
    expect(said(example, other)).toEqual([]);
    expect(said(other, example)).toEqual([]);
  });

  it("is not another thing that happens to have its id", () => {
    const without = applied(example, removeChannel(idOf("Bass")));
    const stranger = { ...example.channels[0], id: "gone s9", name: "Stranger", piece: null } as const;
    const hostile = { ...without, channels: [...without.channels, stranger] } as SetupFile;
    expect(said(example, hostile)).toContain("Channels | Stranger is new");
    expect(said(example, hostile)).toContain("Channels | Bass is not there");
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
  const unseen = all.filter(([, other]) => differences(file, other as SetupFile).length === 0);
  expect(all.length).toBeGreaterThan(300);
  expect(file.recording && file.earphone).not.toBeNull();
  expect(unseen.map(([at]) => at).filter((at) => !none.test(at))).toEqual([]);
});

describe("any two setups", () => {
  const setups = fc.array(commands, { maxLength: 8 }).map((done) => applied(example, ...done));

  it("that differ have a difference, and a setup has none from itself", () => {
    fc.assert(
      fc.property(setups, setups, (a, b) => {
        expect(differences(a, a)).toEqual([]);
        expect(differences(a, b).length === 0).toBe(compared(a) === compared(b));
      }),
      { numRuns: 300 },
    );
  });

  /** What a sentence shows of a value that nobody put into words. */
  const SLIPS = /undefined|NaN|\[object|\bnull\b/;
  const texts = (value: unknown): string[] =>
    typeof value === "string" ? [value] : Object.values(value ?? {}).flatMap(texts);
  /** Without names that are such words. */
  const plainlyNamed = setups.filter((file) => !texts(file).some((text) => SLIPS.test(text)));

  it("give whole sentences", () => {
    fc.assert(
      fc.property(plainlyNamed, (b) => {
        for (const { says } of differences(example, b)) {
          expect(says).not.toMatch(SLIPS);
          const [, after, before] = /^(.*) instead of (.*)$/su.exec(says) ?? [];
          if (after !== undefined) expect(after.endsWith(`: ${before}`)).toBe(false);
        }
      }),
      { numRuns: 300 },
    );
  });
});
