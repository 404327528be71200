import type { NumberRule } from "../core/lib/number";
import { RANGES } from "../document/limits";

type RangeName = keyof typeof RANGES;

/** A field's rule: its name and unit here, its limits where the check of a setup file has them too. */
const rule = (name: string, range: RangeName, unit: string, more: Partial<NumberRule> = {}): NumberRule => ({
  name,
  ...RANGES[range],
  unit,
  ...more,
});

/** What every number field is called and allows. */
export const RULES = {
  level: rule("Gated RMS", "level", "dBFS", { empty: "not entered" }),
  peak: rule("Peak", "level", "dBFS", { empty: "not entered" }),
  activity: rule("Activity", "share", "%", {
    min: 100 * RANGES.share.min,
    max: 100 * RANGES.share.max,
    empty: "by its kind",
  }),
  meter: rule("Meter", "level", "dB", { empty: "not entered" }),
  meterStep: rule("Meter step", "levelStep", "dB"),
  send: rule("Send", "send", "dB", { empty: "off" }),
  fader: rule("Fader", "fader", "dB", { empty: "−∞" }),
  number: rule("Number", "number", "", { whole: true, empty: "not entered" }),
  /** The first of two numbers: not emptied while the second stands. */
  firstNumber: rule("Number", "number", "", { whole: true }),
  port: rule("Output port", "number", "", { whole: true, empty: "not entered" }),
  channelCount: rule("Channels of the desk", "channelCount", "", { whole: true }),
  busCount: rule("Buses of the desk", "busCount", "", { whole: true }),
  portCount: rule("Output ports", "portCount", "", { whole: true }),
  bankSize: rule("Channels in a bank", "bankSize", "", { whole: true }),
  firstPort: rule("First output port", "number", "", { whole: true }),
  trimStep: rule("Smallest trim step", "levelStep", "dB"),
  trim: rule("Trim", "trim", "dB"),
  pad: rule("Pad", "pad", "dB"),
  margin: rule("Target headroom", "margin", "dB"),
  centre: rule("Custom centre drop", "centre", "dB"),
  levelStep: rule("Smallest level step", "levelStep", "dB"),
  output: rule("Output at 0 dBFS", "output", "dBu"),
  input: rule("Max input level", "input", "dBu"),
  panSteps: rule("Pan steps each side", "panSteps", "", { whole: true }),
  metres: rule("Metres", "metres", "m"),
  degrees: rule("Degrees", "degrees", "°"),
  inputs: rule("Inputs", "inputCount", "", { whole: true }),
  sensitivity: rule("Sensitivity", "sensitivity", "dB"),
  impedance: rule("Impedance", "impedance", "Ω"),
  sourceImpedance: rule("Output impedance", "sourceImpedance", "Ω"),
  drive: rule("Amplifier output", "drive", "V"),
  isolation: rule("Isolation", "isolation", "dB"),
  stage: rule("Level on stage", "stage", "dBA"),
} as const satisfies { readonly [name: string]: NumberRule };
