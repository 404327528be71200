import { describe, expect, it } from "vitest";
import { editSlot, moveSlot, setSlot } from "../../src/document/commands/slots";
import { exampleSetup } from "../../src/document/example";
import { applied } from "./commands";

const example = exampleSetup();
const { slots } = example.monitor;

describe("nothing is done, and nothing is there to undo", () => {
  it.each([
    ["a slot filled with what it has", setSlot(2, slots[2] ?? null)],
    ["a free slot freed", setSlot(15, null)],
    ["a slot freed that is over the count", setSlot(20, null)],
    ["a slot moved to where it is", moveSlot(2, 2)],
    ["a free slot moved past a free one", moveSlot(14, 15)],
    ["a pair moved on to its own second slot", moveSlot(0, 0)],
    ["a slot moved from before the first", moveSlot(-1, 3)],
    ["a slot moved to what is no whole number", moveSlot(2, Number.NaN)],
    ["a slot changed to what it is", editSlot(2, { on: true, trim: 0 })],
    ["a free slot changed", editSlot(15, { on: false })],
  ])("%s", (_, command) => {
    expect(applied(example, command)).toBe(example);
  });
});

it("the first slot is one like the others", () => {
  const freed = applied(example, setSlot(0, null));
  expect(freed.monitor.slots).toEqual([null, ...slots.slice(1)]);
  expect(applied(freed, setSlot(0, slots[0] ?? null))).toEqual(example);
});
