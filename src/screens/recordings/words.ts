import { nameOf } from "../../core/called";
import type { TrackPlace } from "../../core/measure/through";
import { printNumber, printSigned } from "../../core/number";
import type { Source } from "../../core/setup";
import type { Db, Seconds } from "../../core/units";

/** A level that may be missing. */
export const level = (value: Db | null, digits = 1): string =>
  value === null ? "–" : printNumber(value, digits);

/** A difference with its sign. */
export const signed = (value: Db | null): string => (value === null ? "–" : printSigned(value, 1));

/** A time or length as "2:07.3". */
export const clock = (seconds: Seconds): string => {
  const tenths = Math.round(seconds * 10);
  const rest = (tenths % 600) / 10;
  return `${Math.floor(tenths / 600)}:${rest.toFixed(1).padStart(4, "0")}`;
};

/** A channel of a source, as it is chosen from a list. */
export const placeName = (source: Source, channel: TrackPlace["channel"]): string =>
  `${nameOf(source, "source")}${source.channels === 2 ? (channel === 0 ? " L" : " R") : ""}`;
