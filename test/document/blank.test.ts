import { expect, it } from "vitest";
import { blankSetup } from "../../src/document/blank";
import { printSetup, readSetupText } from "../../src/document/read-setup";

it("a blank setup has the audience, the drummer and sixteen free inputs, and says nothing of its own", () => {
  const blank = blankSetup();
  expect([blank.name, blank.note, blank.example]).toEqual(["New setup", "", false]);
  expect([blank.kit.pieces, blank.channels, blank.buses]).toEqual([[], [], []]);
  expect(blank.listeners.map((l) => l.name)).toEqual(["Audience", "Drummer"]);
  expect(blank.monitor.inputs).toEqual(Array(16).fill(null));
  expect(readSetupText(printSetup(blank))).toEqual({ ok: true, file: blank, notes: [] });
});
