import { expect, it } from "vitest";
import { describeEntryFault, type EntryFault } from "../../src/text/entry";
import { heldSentences, type OfEach } from "./of-each";

const TRIM = { name: "Trim", min: -60, max: 20, unit: "dB" };
const STEPS = { name: "Steps", min: 1, max: 200, unit: "" };
const notation = (panStyle: "steps" | "midi" | "clock") => ({ panStyle, panSteps: 100 });

const FAULTS: OfEach<EntryFault> = {
  "no number": [
    { code: "no number", typed: " loud ", rule: TRIM },
    { code: "no number", typed: "x".repeat(25), rule: STEPS },
  ],
  "not whole": [{ code: "not whole", typed: "12.5", rule: STEPS }],
  outside: [{ code: "outside", typed: "−61 dB", rule: TRIM }],
  "no pan": (["steps", "midi", "clock"] as const).map((style) => ({
    code: "no pan",
    typed: "x",
    notation: notation(style),
  })),
  "outside steps": [
    { code: "outside steps", typed: "L31", of: 30, unit: "" },
    { code: "outside steps", typed: "130% R", of: 100, unit: "%" },
  ],
  "not whole MIDI": [{ code: "not whole MIDI", typed: "64.5" }],
  "outside MIDI": [{ code: "outside MIDI", typed: "128" }],
  "no time": [{ code: "no time", typed: "13:00" }],
  "outside clock": [{ code: "outside clock", typed: "6:00" }],
} as const;

it("the wording of what is wrong with what was typed is held", () => {
  expect(heldSentences(Object.values(FAULTS).flat().map(describeEntryFault))).toMatchSnapshot();
});
