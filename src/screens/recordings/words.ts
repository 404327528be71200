import { nameOf } from "../../core/called";
import type { TrackPlace } from "../../core/measure/through";
import { printNumber, printSigned } from "../../core/number";
import type { Source } from "../../core/setup";
import type { Db } from "../../core/units";

/** A level that may be missing. */
export const level = (value: Db | null, digits = 1): string =>
  value === null ? "–" : printNumber(value, digits);

/** A difference with its sign. */
export const signed = (value: Db | null): string => (value === null ? "–" : printSigned(value, 1));

/** A channel of a source, as it is chosen from a list. */
export const placeName = (source: Source, channel: TrackPlace["channel"]): string =>
  `${nameOf(source, "source")}${source.channels === 2 ? (channel === 0 ? " L" : " R") : ""}`;
