import { alike, amend } from "./amend";
import type { SetupFile } from "./schema";

/** A setup after a change of its slots: where something else is in a slot now, its tick of the line check is gone. */
export const withoutStaleTicks = (before: SetupFile, after: SetupFile): SetupFile => {
  const ticks = Object.entries(after.lineCheck);
  const stay = ticks.filter(([at]) =>
    alike(before.monitor.slots[Number(at)]?.feed, after.monitor.slots[Number(at)]?.feed),
  );
  return stay.length === ticks.length ? after : amend(after, { lineCheck: Object.fromEntries(stay) });
};
