import type { Setup } from "../setup";
import { patchFlags } from "./checks";
import { type Fit, fits } from "./fit";
import type { PatchFlag } from "./flag";
import { type SheetRow, sheetRows } from "./sheet";
import { type Usage, usageOf } from "./usage";

/** Everything about the slots: how they are used, what is wrong, the ways back under the count, the sheet. */
export interface PatchFigures {
  readonly usage: Usage;
  readonly flags: readonly PatchFlag[];
  /** Worked out when somebody looks: the search is the costly part. */
  readonly fits: readonly Fit[];
  readonly rows: readonly SheetRow[];
}

/** All figures of the patch. */
export const patchFigures = (setup: Setup): PatchFigures => {
  let found: readonly Fit[] | null = null;
  return {
    usage: usageOf(setup),
    flags: patchFlags(setup),
    get fits() {
      found ??= fits(setup);
      return found;
    },
    rows: sheetRows(setup),
  };
};
