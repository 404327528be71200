import { expect, it } from "vitest";
import { applyFit, fits } from "../../src/core/patch/fit";
import { replaceSetup } from "../../src/document/commands/apply";
import { tickSlot } from "../../src/document/commands/check";
import { editSlot, setSlotCount } from "../../src/document/commands/slots";
import { swapPair } from "../../src/document/commands/sums";
import { exampleSetup } from "../../src/document/example";
import type { SetupFile } from "../../src/document/schema";

/** The example with every patched slot ticked as heard. */
const ticked = (): SetupFile => {
  const file = exampleSetup();
  return file.monitor.slots.reduce((now, _, at) => tickSlot(at, true).apply(now), file);
};

const feedsTicked = (file: SetupFile) =>
  Object.keys(file.lineCheck).map((at) => JSON.stringify(file.monitor.slots[Number(at)]?.feed));

it("a tick stays with what was heard: swapped legs lose theirs, the others keep them", () => {
  const before = ticked();
  const legs = before.monitor.slots.flatMap((s, at) => (s?.feed.kind === "leg" ? [String(at)] : []));
  const after = swapPair(before.sums[0]?.id ?? "").apply(before);
  expect(Object.keys(after.lineCheck)).toEqual(
    Object.keys(before.lineCheck).filter((at) => !legs.includes(at)),
  );
});

it("a way back under the count leaves no tick on a slot that takes something else now", () => {
  const before = setSlotCount(8).apply(ticked());
  const [fit] = fits(before);
  if (!fit) throw new Error("no way back");
  const after = replaceSetup("make room", (s) => applyFit(s, fit)).apply(before);
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
  expect(editSlot(0, { trim: -3 }).apply(before).lineCheck).toEqual(before.lineCheck);
});
