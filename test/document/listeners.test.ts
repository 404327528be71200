import { expect, it } from "vitest";
import { addListener, editListener } from "../../src/document/commands/listeners";
import { editPreferences } from "../../src/document/commands/settings";
import { LIMITS } from "../../src/document/limits";
import { bandSetup } from "./band";
import { applied } from "./commands";

const example = bandSetup();

it("there are as many listeners as a setup may hold, and no more", () => {
  const room = LIMITS.listeners - example.listeners.length;
  const full = applied(example, ...Array.from({ length: room }, () => addListener()));
  expect(full.listeners).toHaveLength(LIMITS.listeners);
  expect(applied(full, addListener())).toBe(full);
});

it("what is changed of a listener or a wish is that and nothing else", () => {
  const [audience, drummer, singer, ...others] = example.listeners;
  expect(applied(example, editListener("l3", { flipped: true }))).toEqual({
    ...example,
    listeners: [audience, drummer, { ...singer, flipped: true }, ...others],
  });
  expect(applied(example, editPreferences({ targetHeadroom: 3 }))).toEqual({
    ...example,
    preferences: { ...example.preferences, targetHeadroom: 3 },
  });
});
