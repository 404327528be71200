import { describe, expect, it } from "vitest";
import { applyPlan } from "../../src/core/allocate/apply";
import { freeingQuestion, waysToFree } from "../../src/core/allocate/free";
import { freeingMoves } from "../../src/core/allocate/free-moves";
import { withList } from "../../src/core/inputs/list";
import type { Bus, Setup } from "../../src/core/model/setup";
import { withStep } from "../../src/core/recommend/steps";
import { replaceSetup } from "../../src/document/commands/apply";
import { addBus, duplicateBus } from "../../src/document/commands/buses";
import { setInputCount } from "../../src/document/commands/inputs";
import { LIMITS, tooMuch } from "../../src/document/limits";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import type { Excess } from "../../src/text/excess";
import { bandSetup } from "./band";
import { applied } from "./commands";

const many = <T>(count: number, item: T): T[] => Array.from({ length: count }, () => item);

/** The example with as many sums as a setup holds. */
const full = (): SetupFile =>
  applied(bandSetup(), ...many(LIMITS.buses - bandSetup().buses.length, addBus(true)));

const ownBus = (setup: Setup): Setup => {
  const [of] = setup.buses as [Bus];
  return withStep(setup, {
    step: "own bus",
    listener: "l2",
    of: of.id,
    copy: { ...of, id: "m99", name: "Drums for Mara" },
    inputs: [14, 15],
    trims: [0, 0],
    off: [false, false],
    pans: [],
  });
};

describe("a change that would hold more than a setup may", () => {
  const refused = (file: SetupFile, change: (setup: Setup) => Setup, excess: Excess): void => {
    const command = replaceSetup("change", change);
    expect(command.refuses?.(file)).toEqual(excess);
    expect(command.apply(file)).toBe(file);
  };
  const taken = (file: SetupFile, change: (setup: Setup) => Setup): void => {
    const command = replaceSetup("change", change);
    expect(command.refuses?.(file)).toBeNull();
    const after = command.apply(file);
    expect(after).not.toBe(file);
    expect(readSetupText(printSetup(after))).toEqual({ ok: true, file: after, notes: [] });
  };
  const BUSES: Excess = { of: "buses", count: 33, limit: 32 };

  it("is refused with a word: a bus of one's own", () => {
    refused(full(), ownBus, BUSES);
    taken(bandSetup(), ownBus);
  });

  it("is refused with a word: channels summed to get back under the input count", () => {
    const together = (file: SetupFile) => {
      const question = freeingQuestion(file, { channels: new Map(), buses: [] });
      if (!question) throw new Error("nothing is over");
      const { problem } = question;
      const makesBus = (m: { readonly move: string }): boolean => m.move === "together";
      const way = waysToFree(question).find(({ plan }) => freeingMoves(file, problem, plan).some(makesBus));
      if (!way) throw new Error("no way back that buses");
      return (s: Setup) => applyPlan(s, problem, way.plan, () => "Bus");
    };
    const over = setInputCount(13).apply(bandSetup());
    taken(over, together(over));
    const fullOver = setInputCount(13).apply(full());
    refused(fullOver, together(fullOver), BUSES);
  });

  it("is refused with a word: a list of too many channels", () => {
    const row = { kind: "other", piece: null, lines: 1, pan: 0, muted: false, inverted: false } as const;
    const otherwise = { ...row, gatedRms: null, peak: null, keepSides: false };
    const lines = Array.from({ length: LIMITS.channels }, (_, i) => ({
      name: `New ${i}`,
      numbers: [],
      says: {},
      otherwise,
    }));
    refused(bandSetup(), (s) => withList(s, lines, "add"), { of: "channels", count: 530, limit: 512 });
    taken(bandSetup(), (s) => withList(s, lines, "replace"));
  });

  it("is counted for everything that a reader counts", () => {
    const example = bandSetup();
    const [piece] = example.kit.pieces;
    const [listener] = example.listeners;
    const [input] = example.monitor.inputs;
    expect(tooMuch(example)).toBeNull();
    expect(tooMuch({ ...example, kit: { ...example.kit, pieces: many(129, piece as never) } })).toEqual({
      of: "pieces",
      count: 129,
      limit: 128,
    });
    expect(tooMuch({ ...example, listeners: many(33, listener as never) })).toEqual({
      of: "listeners",
      count: 33,
      limit: 32,
    });
    const extra = many(13, { head: "Notes", value: "" });
    expect(tooMuch({ ...example, channels: many(2, { ...example.channels[0], extra } as never) })).toEqual({
      of: "extra",
      count: 13,
      limit: 12,
    });
    const inputs = many(193, input as never);
    expect(tooMuch({ ...example, monitor: { ...example.monitor, inputs } })).toEqual({
      of: "inputs",
      count: 193,
      limit: 192,
    });
    expect(tooMuch(duplicateBus("m1").apply(full()))).toBeNull();
  });
});
