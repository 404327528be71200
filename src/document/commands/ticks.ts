import { type Command, step } from "../command";
import type { TickEntry } from "../schema";
import { withLog } from "../tick-log";

/** Merges what was said on another phone: nothing is overwritten, and of each thing the last word holds. */
export const mergeTicks = (ticks: readonly TickEntry[]): Command =>
  step("merge ticks", (file) => withLog(file, ticks));
