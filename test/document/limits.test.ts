import { describe, expect, it } from "vitest";
import { applyFit, fits } from "../../src/core/patch/fit";
import { withList } from "../../src/core/patch/list";
import { withStep } from "../../src/core/repair/steps";
import type { Setup, Sum } from "../../src/core/setup";
import { replaceSetup } from "../../src/document/commands/apply";
import { setSlotCount } from "../../src/document/commands/slots";
import { addSum, duplicateSum } from "../../src/document/commands/sums";
import { exampleSetup } from "../../src/document/example";
import { LIMITS, tooMuch } from "../../src/document/limits";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { applied } from "./commands";

const many = <T>(count: number, item: T): T[] => Array.from({ length: count }, () => item);

/** The example with as many sums as a setup holds. */
const full = (): SetupFile =>
  applied(exampleSetup(), ...many(LIMITS.sums - exampleSetup().sums.length, addSum(true)));

const ownPair = (setup: Setup): Setup => {
  const [of] = setup.sums as [Sum];
  return withStep(setup, {
    step: "own pair",
    listener: "l2",
    of: of.id,
    copy: { ...of, id: "m99", name: "Drums for Mara" },
    slots: [14, 15],
    trims: [0, 0],
    off: [false, false],
    pans: [],
  });
};

describe("a change that would hold more than a setup may", () => {
  const refused = (file: SetupFile, change: (setup: Setup) => Setup, says: string): void => {
    const command = replaceSetup("change", change);
    expect(command.refuses?.(file)).toBe(says);
    expect(command.apply(file)).toBe(file);
  };
  const taken = (file: SetupFile, change: (setup: Setup) => Setup): void => {
    const command = replaceSetup("change", change);
    expect(command.refuses?.(file)).toBeNull();
    const after = command.apply(file);
    expect(after).not.toBe(file);
    expect(readSetupText(printSetup(after))).toEqual({ ok: true, file: after, notes: [] });
  };
  const SUMS = "33 sums in all: too many. Allowed: 32.";

  it("is refused with a word: a pair of one's own", () => {
    refused(full(), ownPair, SUMS);
    taken(exampleSetup(), ownPair);
  });

  it("is refused with a word: sources summed to get back under the slot count", () => {
    const together = (file: SetupFile) => {
      const fit = fits(file, 30).find((f) => f.moves.some((m) => m.move === "together"));
      if (!fit) throw new Error("no way back that sums");
      return (s: Setup) => applyFit(s, fit);
    };
    const over = setSlotCount(9).apply(exampleSetup());
    taken(over, together(over));
    const fullOver = setSlotCount(9).apply(full());
    refused(fullOver, together(fullOver), SUMS);
  });

  it("is refused with a word: a list of too many sources", () => {
    const row = { kind: "other", piece: null, channels: 1, pan: 0, muted: false, inverted: false } as const;
    const rows = Array.from({ length: LIMITS.sources }, (_, i) => ({
      ...row,
      name: `New ${i}`,
      level: null,
      peak: null,
      keepSides: false,
      feeds: [],
    }));
    refused(exampleSetup(), (s) => withList(s, rows, "add"), "530 sources in all: too many. Allowed: 512.");
    taken(exampleSetup(), (s) => withList(s, rows, "replace"));
  });

  it("is counted for everything that a reader counts", () => {
    const example = exampleSetup();
    const [piece] = example.kit.pieces;
    const [listener] = example.listeners;
    const [slot] = example.monitor.slots;
    expect(tooMuch(example)).toBeNull();
    expect(tooMuch({ ...example, kit: { ...example.kit, pieces: many(129, piece as never) } })).toContain(
      "129 pieces in all",
    );
    expect(tooMuch({ ...example, listeners: many(33, listener as never) })).toContain("33 listeners in all");
    const slots = many(193, slot as never);
    expect(tooMuch({ ...example, monitor: { ...example.monitor, slots } })).toContain("193 slots in all");
    expect(tooMuch(duplicateSum("m1").apply(full()))).toBeNull();
  });
});
