import { alike, amend } from "./amend";
import type { SetupFile } from "./schema";

/** A setup after a change of its inputs: where something else is in an input now, its tick of the line check is gone. */
export const withoutStaleTicks = (before: SetupFile, after: SetupFile): SetupFile => {
  const ticks = Object.entries(after.lineCheck);
  const stay = ticks.filter(([at]) =>
    alike(before.monitor.inputs[Number(at)]?.feed, after.monitor.inputs[Number(at)]?.feed),
  );
  return stay.length === ticks.length ? after : amend(after, { lineCheck: Object.fromEntries(stay) });
};
