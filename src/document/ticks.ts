import type { Feed } from "../core/setup";
import { amend } from "./amend";
import type { SetupFile } from "./schema";

const isSame = (a: Feed | undefined, b: Feed | undefined): boolean =>
  a === b || JSON.stringify(a) === JSON.stringify(b);

/** A setup after a change of its slots: where something else is in a slot now, its tick of the line check is gone. */
export const withoutStaleTicks = (before: SetupFile, after: SetupFile): SetupFile => {
  if (before.monitor.slots === after.monitor.slots) return after;
  const ticks = Object.entries(after.lineCheck);
  const stay = ticks.filter(([at]) =>
    isSame(before.monitor.slots[Number(at)]?.feed, after.monitor.slots[Number(at)]?.feed),
  );
  return stay.length === ticks.length ? after : amend(after, { lineCheck: Object.fromEntries(stay) });
};
