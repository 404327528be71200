import type { Setup } from "../setup";
import { patchFlags } from "./checks";
import type { PatchFlag } from "./flag";
import { type SheetRow, sheetRows } from "./sheet";
import { type Usage, usageOf } from "./usage";

/** Everything about the slots but the ways back under the count, which are searched only when something is over: `fits`. */
export interface PatchFigures {
  readonly usage: Usage;
  readonly flags: readonly PatchFlag[];
  readonly rows: readonly SheetRow[];
}

/** All figures of the patch. */
export const patchFigures = (setup: Setup): PatchFigures => ({
  usage: usageOf(setup),
  flags: patchFlags(setup),
  rows: sheetRows(setup),
});
