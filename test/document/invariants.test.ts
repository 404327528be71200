import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { freeingQuestion, waysToFree } from "../../src/core/allocate/free";
import { checkOf } from "../../src/core/check/check";
import { decide } from "../../src/core/check/decide";
import { evaluate } from "../../src/core/evaluate";
import type { Hit } from "../../src/core/model/setup";
import { reasonsFor } from "../../src/core/recommend/reasons";
import { recommend } from "../../src/core/recommend/recommend";
import { whatIfs } from "../../src/core/recommend/what-if";
import { setInputCount } from "../../src/document/commands/inputs";
import { exampleSetup } from "../../src/document/example";
import { RANGES } from "../../src/document/limits";
import { linePlace } from "../../src/document/line-place";
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
  const lists = [file.channels, file.kit.pieces, file.buses, file.listeners];
  for (const list of lists) expect(new Set(list.map((item) => item.id)).size).toBe(list.length);
  const [channels, pieces, buses, listeners] = lists.map((list) => list.map((item) => item.id)) as [
    string[],
    string[],
    string[],
    string[],
  ];
  for (const channel of file.channels) expect([null, ...pieces]).toContain(channel.piece);
  for (const bus of file.buses) {
    const sent = bus.sends.map((send) => send.channel);
    expect(new Set(sent).size).toBe(sent.length);
    for (const id of sent) expect(channels).toContain(id);
  }
  for (const listener of file.listeners) expect([null, ...buses]).toContain(listener.bus);
  expect(file.listeners.filter((l) => l.kind === "drummer")).toHaveLength(1);
  expect(file.listeners.some((l) => l.kind === "audience")).toBe(true);
  expect(listeners).toContain(file.preferences.first);
  expect(file.monitor.inputs.length).toBeGreaterThanOrEqual(file.monitor.inputCount);
  for (const input of file.monitor.inputs) {
    if (input?.feed.kind === "channel") {
      const { channel, side } = input.feed;
      expect(channels).toContain(channel);
      if (side !== "both") expect(file.channels.find((s) => s.id === channel)?.lines).toBe(2);
    } else if (input) {
      const { bus, side } = input.feed;
      expect(buses).toContain(bus);
      if (side === "right") expect(file.buses.find((s) => s.id === bus)?.stereo).toBe(true);
    }
  }
  for (const key of Object.keys(file.lineCheck)) {
    const place = linePlace(key);
    expect(file.monitor.inputs[place?.index ?? -1]).toBeTruthy();
    if (place && place.listener !== null) expect(listeners).toContain(place.listener);
  }
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

  it("never make recommendations or ways back under the input count NaN", () => {
    fc.assert(
      fc.property(setups, (file) => {
        for (const bus of file.buses) {
          const ranked = recommend(file, bus);
          // Figures are worked out when somebody looks, so everything is spread before it is looked through.
          expect(hasNaN([ranked.map((r) => ({ ...r })), reasonsFor(file, bus, ranked)])).toBe(false);
          expect(hasNaN([...whatIfs(file, bus)])).toBe(false);
        }
        const over = applied(file, setInputCount(RANGES.inputCount.min));
        const question = freeingQuestion(over, { channels: new Map(), buses: [] });
        expect(hasNaN(question && waysToFree(question))).toBe(false);
      }),
      { numRuns: 100 },
    );
  });

  it("never make a check NaN, whatever is answered", () => {
    fc.assert(
      fc.property(setups, fc.infiniteStream(answers), (file, said) => {
        for (const listener of file.listeners) {
          const check = checkOf(file, listener);
          const lists = new Set(check.candidates.flatMap((c) => c.chances.flat()));
          expect([...lists].some((list) => list.some(Number.isNaN))).toBe(false);
          const hits: Hit[] = [];
          for (;;) {
            const decision = decide(check, hits);
            expect(hasNaN(decision.kind === "asking" ? decision.belief : decision)).toBe(false);
            if (decision.kind !== "asking") break;
            const { piece, action } = decision.next;
            hits.push({ piece, answer: said.next().value, ...(action === null ? {} : { action }) });
          }
        }
      }),
      { numRuns: 15 },
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
