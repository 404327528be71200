import { type ReadThing, readThing } from "./desk-file";
import { HAND_OVER_FORMAT, readHandOver } from "./hand-over";
import type { Read } from "./read-setup";
import { isFields } from "./reader";
import { readTicks, TICKS_FORMAT, type TicksFile } from "./ticks-file";

/** Anything that a link can carry, read or not. */
export type ReadLinked = ReadThing | Read<TicksFile>;

/** Reads what a link carries: a setup for a helper, a helper’s ticks, a desk, a setup. */
export const readLinked = (value: unknown): ReadLinked => {
  const format = isFields(value) ? value.format : undefined;
  if (format === HAND_OVER_FORMAT) return readHandOver(value);
  return format === TICKS_FORMAT ? readTicks(value) : readThing(value);
};
