import type { Setup } from "../model/setup";
import type { Issue } from "./issue";
import { patchIssues } from "./issues";
import { type SheetRow, sheetRows } from "./sheet";
import { type Usage, usageOf } from "./usage";

/** Everything about the inputs but what goes where, which is searched when it is asked: `allocate`, `waysToFree`. */
export interface PatchFigures {
  readonly usage: Usage;
  readonly issues: readonly Issue[];
  readonly rows: readonly SheetRow[];
}

/** All figures of the patch. */
export const patchFigures = (setup: Setup): PatchFigures => ({
  usage: usageOf(setup),
  issues: patchIssues(setup),
  rows: sheetRows(setup),
});
