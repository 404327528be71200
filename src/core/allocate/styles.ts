import { compareCharges, type LossCode, WORST_FIRST } from "./losses";
import type { AllocationProblem } from "./model";
import { type Grouping, solve } from "./solve";
import type { Space } from "./space";

/** What a plan is for. */
export type PlanStyle = "best" | "as-now" | "stereo" | "spare" | "apart" | "fewest";

/** The table with some losses taken more seriously: moved to where another stands. */
export const promoted = (
  codes: readonly LossCode[],
  before: LossCode,
  order: readonly LossCode[] = WORST_FIRST,
): readonly LossCode[] =>
  order
    .filter((code) => !codes.includes(code))
    .flatMap((code) => (code === before ? [...codes, code] : [code]));

/** The same losses, in the order of each style. */
export const ORDERS: { readonly [style in PlanStyle]: readonly LossCode[] } = {
  best: WORST_FIRST,
  // Nobody loses the input of their own that they have on a knob.
  "as-now": promoted(["own-input-lost"], "must-own-shared"),
  // What is stereo stays so; families share instead.
  stereo: promoted(["image-folded", "stereo-folded"], "families-share"),
  // One knob a family, in stereo where that is worth it.
  spare: promoted(["stereo-folded"], "own-shared"),
  // As many things apart as can be, each microphone of the kit among them; stereo gives way.
  apart: promoted(["spare-own-shared", "not-all-apart", "channel-shares"], "stereo-folded"),
  // Nothing that matters more shares, but neither being apart in the family nor stereo is worth an input.
  fewest: promoted(["input-used"], "image-folded"),
};

/** What a plan with inputs to spare may not lose more of than the best one. */
const NOT_FOR_SPARE = ORDERS.spare.slice(0, ORDERS.spare.indexOf("own-shared"));

/** The best plan within the fewest inputs that loses no more of what matters most: room for guests. */
export const withSpare = (problem: AllocationProblem, best: Grouping, { free }: Space): Grouping | null => {
  const within = (inputs: number): Grouping | null => {
    const found = solve(problem, ORDERS.spare, undefined, inputs);
    return found && compareCharges(found.charges, best.charges, NOT_FOR_SPARE) <= 0 ? found : null;
  };
  let [low, high] = [0, free.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (within(middle)) high = middle;
    else low = middle + 1;
  }
  return within(low);
};
