import { expect, it } from "vitest";
import { applyPlan } from "../../src/core/allocate/apply";
import { freeingQuestion, waysToFree } from "../../src/core/allocate/free";
import { replaceSetup } from "../../src/document/commands/apply";
import { swapBus } from "../../src/document/commands/buses";
import { tickInput } from "../../src/document/commands/check";
import { editInput, setInputCount } from "../../src/document/commands/inputs";
import type { SetupFile } from "../../src/document/schema";
import { bandSetup } from "./band";

/** The example with every patched input ticked as heard. */
const ticked = (): SetupFile => {
  const file = bandSetup();
  return file.monitor.inputs.reduce((now, _, at) => tickInput(at, true).apply(now), file);
};

const feedsTicked = (file: SetupFile) =>
  Object.keys(file.lineCheck).map((at) => JSON.stringify(file.monitor.inputs[Number(at)]?.feed));

it("a tick stays with what was heard: swapped sides lose theirs, the others keep them", () => {
  const before = ticked();
  const sides = before.monitor.inputs.flatMap((s, at) => (s?.feed.kind === "bus" ? [String(at)] : []));
  const after = swapBus(before.buses[0]?.id ?? "").apply(before);
  expect(Object.keys(after.lineCheck)).toEqual(
    Object.keys(before.lineCheck).filter((at) => !sides.includes(at)),
  );
});

it("a way back under the count leaves no tick on an input that takes something else now", () => {
  const before = setInputCount(8).apply(ticked());
  const question = freeingQuestion(before, { channels: new Map(), buses: [] });
  const [way] = question ? waysToFree(question) : [];
  if (!question || !way) throw new Error("no way back");
  const change = replaceSetup("make room", (s) => applyPlan(s, question.problem, way.plan, () => "Bus"));
  const after = change.apply(before);
  const heard = new Map(Object.keys(before.lineCheck).map((at, i) => [at, feedsTicked(before)[i]]));
  Object.keys(after.lineCheck).forEach((at, i) => {
    expect(feedsTicked(after)[i]).toBe(heard.get(at));
  });
  expect(Object.keys(after.lineCheck).length).toBeLessThan(Object.keys(before.lineCheck).length);
});

it("a change that changes nothing is the very same setup, with all its ticks", () => {
  const before = ticked();
  expect(replaceSetup("nothing", (setup) => setup).apply(before)).toBe(before);
});

it("a trim changes no tick", () => {
  const before = ticked();
  expect(editInput(0, { trim: -3 }).apply(before).lineCheck).toEqual(before.lineCheck);
});
