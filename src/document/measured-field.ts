import type { BusMeasurement, HearingPoint } from "../core/model/setup";
import { isTime } from "./desk-tick-field";
import { RANGES } from "./limits";
import { fields, isFields, number, oneOf, type Reader, sides, text } from "./reader";
import { measuredLevel } from "./recording-field";

const POINTS: readonly HearingPoint[] = ["mixer", "bus"];

const figures = fields<BusMeasurement>({
  at: text("", 40),
  from: oneOf(POINTS, "mixer"),
  seconds: number(RANGES.seconds, 0),
  rms: sides(measuredLevel),
  peak: sides(measuredLevel),
  truePeak: sides(measuredLevel),
});

/** Measured levels of a bus; those without a date are none, for nobody knew what they are of. */
export const measuredField: Reader<BusMeasurement | undefined> = (value, at, say) => {
  if (value === undefined) return undefined;
  if (isFields(value) && isTime(value.at)) return figures(value, at, say);
  say({ code: "no date", at });
  return undefined;
};
