import type { Hit } from "../model/setup";
import type { Check } from "./check";
import { judge } from "./judge";
import { posterior } from "./session";

/** How far a check has come, 0…1: the share of the first uncertainty that is gone; 1 exactly when there is a verdict. */
export const progressOf = (check: Check, hits: readonly Hit[]): number => {
  const verdict = judge(check, hits);
  if (verdict.kind !== "asking") return 1;
  return Math.max(0, 1 - verdict.belief.entropy / posterior(check, []).entropy);
};
