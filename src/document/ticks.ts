import { alike, amend } from "./amend";
import { linePlace } from "./line-place";
import type { SetupFile } from "./schema";

/** A setup after a change of its inputs: where something else is in an input now, its tick of the line check is gone. */
export const withoutStaleTicks = (before: SetupFile, after: SetupFile): SetupFile => {
  const ticks = Object.entries(after.lineCheck);
  const stay = ticks.filter(([key]) => {
    const at = linePlace(key)?.index ?? -1;
    return alike(before.monitor.inputs[at]?.feed, after.monitor.inputs[at]?.feed);
  });
  return stay.length === ticks.length ? after : amend(after, { lineCheck: Object.fromEntries(stay) });
};
