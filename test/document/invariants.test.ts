import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkOf } from "../../src/core/check/check";
import { judge } from "../../src/core/check/judge";
import { evaluate } from "../../src/core/evaluate";
import { fits } from "../../src/core/patch/fit";
import { whatWouldChange } from "../../src/core/repair/changes";
import { repairsFor } from "../../src/core/repair/repairs";
import { situationOf } from "../../src/core/repair/situation";
import type { Hit } from "../../src/core/setup";
import { setSlotCount } from "../../src/document/commands/slots";
import { exampleSetup } from "../../src/document/example";
import { RANGES } from "../../src/document/limits";
import { mend } from "../../src/document/mend";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { templateSetup } from "../../src/document/templates";
import { answers } from "./any";
import { applied, commands } from "./commands";

const begins = fc.constantFrom(exampleSetup(), templateSetup(3, "left"), templateSetup(12, "open"));
const setups = fc
  .tuple(begins, fc.array(commands, { maxLength: 40 }))
  .map(([file, done]) => applied(file, ...done));

/** The schema's rules, written down a second time and plainly. */
const expectWhole = (file: SetupFile): void => {
  const lists = [file.sources, file.kit.pieces, file.sums, file.listeners];
  for (const list of lists) expect(new Set(list.map((item) => item.id)).size).toBe(list.length);
  const [sources, pieces, sums, listeners] = lists.map((list) => list.map((item) => item.id)) as [
    string[],
    string[],
    string[],
    string[],
  ];
  for (const source of file.sources) expect([null, ...pieces]).toContain(source.piece);
  for (const sum of file.sums) {
    const sent = sum.sends.map((send) => send.source);
    expect(new Set(sent).size).toBe(sent.length);
    for (const id of sent) expect(sources).toContain(id);
  }
  for (const listener of file.listeners) expect([null, ...sums]).toContain(listener.sum);
  expect(file.listeners.filter((l) => l.kind === "drummer")).toHaveLength(1);
  expect(file.listeners.some((l) => l.kind === "audience")).toBe(true);
  expect(listeners).toContain(file.wishes.first);
  expect(file.monitor.slots.length).toBeGreaterThanOrEqual(file.monitor.slotCount);
  for (const slot of file.monitor.slots) {
    if (slot?.feed.kind === "source") {
      const { source, channel } = slot.feed;
      expect(sources).toContain(source);
      if (channel !== "both") expect(file.sources.find((s) => s.id === source)?.channels).toBe(2);
    } else if (slot) {
      const { sum, leg } = slot.feed;
      expect(sums).toContain(sum);
      if (leg === "right") expect(file.sums.find((s) => s.id === sum)?.stereo).toBe(true);
    }
  }
  for (const at of Object.keys(file.lineCheck)) expect(file.monitor.slots[Number(at)]).toBeTruthy();
  if (file.check) expect(listeners).toContain(file.check.listener);
  for (const hit of file.check?.hits ?? []) expect(pieces).toContain(hit.piece);
};

const hasNaN = (value: unknown): boolean =>
  Number.isNaN(value) ||
  (value instanceof Map && [...value.values()].some(hasNaN)) ||
  (typeof value === "object" && value !== null && Object.values(value).some(hasNaN));

describe("any commands in any order", () => {
  it("keep the schema's rules, so that nothing is left to mend", () => {
    fc.assert(
      fc.property(setups, (file) => {
        expectWhole(file);
        expect(mend(file)).toBe(file);
      }),
      { numRuns: 400 },
    );
  });

  it("leave a setup that is written and read back exactly, without a word", () => {
    fc.assert(
      fc.property(setups, (file) => {
        expect(readSetupText(printSetup(file))).toEqual({ ok: true, file, notes: [] });
      }),
      { numRuns: 200 },
    );
  });

  it("never make the figures NaN", () => {
    fc.assert(
      fc.property(setups, (file) => {
        expect(hasNaN(evaluate(file))).toBe(false);
      }),
      { numRuns: 200 },
    );
  });

  it("never make repairs or ways back under the slot count NaN", () => {
    fc.assert(
      fc.property(setups, (file) => {
        const situations = file.sums.map((sum) => situationOf(file, sum));
        expect(hasNaN(situations.map(repairsFor))).toBe(false);
        expect(hasNaN(situations.map(whatWouldChange))).toBe(false);
        expect(hasNaN(fits(applied(file, setSlotCount(RANGES.slotCount.min))))).toBe(false);
      }),
      { numRuns: 100 },
    );
  });

  it("never make a check NaN, whatever is answered", () => {
    fc.assert(
      fc.property(setups, fc.infiniteStream(answers), (file, said) => {
        for (const listener of file.listeners) {
          const check = checkOf(file, listener);
          expect(hasNaN(check)).toBe(false);
          const hits: Hit[] = [];
          for (;;) {
            const verdict = judge(check, hits);
            expect(hasNaN(verdict)).toBe(false);
            if (verdict.kind !== "asking") break;
            hits.push({ piece: verdict.next, answer: said.next().value });
          }
        }
      }),
      { numRuns: 100 },
    );
  });

  it("give the same setup again", () => {
    fc.assert(
      fc.property(fc.array(commands, { maxLength: 20 }), (done) => {
        expect(applied(exampleSetup(), ...done)).toEqual(applied(exampleSetup(), ...done));
      }),
      { numRuns: 50 },
    );
  });
});
