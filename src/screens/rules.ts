import type { NumberRule } from "../core/number";

const db = (name: string, min: number, max: number, empty?: string): NumberRule => ({
  name,
  min,
  max,
  unit: "dB",
  ...(empty === undefined ? {} : { empty }),
});
const dbfs = (name: string): NumberRule => ({ name, min: -120, max: 24, unit: "dBFS", empty: "not known" });

/** What every number field allows; the same limits stand in the check of a setup file. */
export const RULES = {
  level: dbfs("Level"),
  peak: dbfs("Peak"),
  send: db("Send", -120, 40, "off"),
  trim: db("Trim", -60, 20),
  pad: db("Pad", 0, 60),
  margin: db("Wanted margin", 0, 40),
  centre: db("Centre attenuation", 0.5, 12),
  levelStep: db("Level step", 0.01, 3),
  output: { name: "Output at 0 dBFS", min: -20, max: 36, unit: "dBu" },
  input: { name: "Largest input level", min: -40, max: 36, unit: "dBu" },
  panSteps: { name: "Pan steps each side", min: 1, max: 1000, unit: "", whole: true },
  metres: { name: "Metres", min: -20, max: 20, unit: "m" },
  degrees: { name: "Degrees", min: -180, max: 180, unit: "°" },
  slots: { name: "Slots", min: 8, max: 64, unit: "", whole: true },
} as const satisfies { readonly [name: string]: NumberRule };
