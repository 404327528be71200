import type { Setup } from "../model/setup";
import { copyIssues, overIssues, silentIssues, tapIssues, twiceIssues } from "./input-issues";
import type { PatchIssue, Severity } from "./issue";
import { pairIssues } from "./pair-issues";
import { reachIssues } from "./reach-issues";

const ORDER: { readonly [severity in Severity]: number } = { fault: 0, warn: 1, note: 2 };

/** Everything that is to be said of the patch: the worst first, then in the order of the inputs. */
export const patchIssues = (setup: Setup): PatchIssue[] => {
  const first = ({ inputs }: PatchIssue): number => inputs[0] ?? setup.monitor.inputs.length;
  return [
    ...overIssues(setup),
    ...reachIssues(setup),
    ...pairIssues(setup),
    ...silentIssues(setup),
    ...copyIssues(setup),
    ...twiceIssues(setup),
    ...tapIssues(setup),
  ].sort((a, b) => ORDER[a.severity] - ORDER[b.severity] || first(a) - first(b));
};
