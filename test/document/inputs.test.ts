import { describe, expect, it } from "vitest";
import { editInput, moveInput, setInput } from "../../src/document/commands/inputs";
import { bandSetup } from "./band";
import { applied } from "./commands";

const example = bandSetup();
const { inputs } = example.monitor;

describe("nothing is done, and nothing is there to undo", () => {
  it.each([
    ["an input filled with what it has", setInput(2, inputs[2] ?? null)],
    ["a free input freed", setInput(15, null)],
    ["an input freed that is over the count", setInput(20, null)],
    ["an input moved to where it is", moveInput(2, 2)],
    ["a free input moved past a free one", moveInput(14, 15)],
    ["a pair moved on to its own second input", moveInput(0, 0)],
    ["an input moved from before the first", moveInput(-1, 3)],
    ["an input moved to what is no whole number", moveInput(2, Number.NaN)],
    ["an input changed to what it is", editInput(2, { port: null, on: true, trim: 0 })],
    ["a free input changed", editInput(15, { on: false })],
  ])("%s", (_, command) => {
    expect(applied(example, command)).toBe(example);
  });
});

it("the first input is one like the others", () => {
  const freed = applied(example, setInput(0, null));
  expect(freed.monitor.inputs).toEqual([null, ...inputs.slice(1)]);
  expect(applied(freed, setInput(0, inputs[0] ?? null))).toEqual(example);
});
