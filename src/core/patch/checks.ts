import type { Setup } from "../setup";
import { copyFlags, overFlags, silentFlags, tapFlags, twiceFlags } from "./feeds";
import type { PatchFlag, Severity } from "./flag";
import { pairFlags } from "./pairs";
import { reachFlags } from "./reach";

const ORDER: { readonly [severity in Severity]: number } = { fault: 0, warn: 1, note: 2 };

/** Everything that is to be said of the patch: the worst first, then in the order of the slots. */
export const patchFlags = (setup: Setup): PatchFlag[] => {
  const first = ({ slots }: PatchFlag): number => slots[0] ?? setup.monitor.slots.length;
  return [
    ...overFlags(setup),
    ...reachFlags(setup),
    ...pairFlags(setup),
    ...silentFlags(setup),
    ...copyFlags(setup),
    ...twiceFlags(setup),
    ...tapFlags(setup),
  ].sort((a, b) => ORDER[a.severity] - ORDER[b.severity] || first(a) - first(b));
};
