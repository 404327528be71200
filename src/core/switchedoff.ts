import { sumCalled } from "./called";
import type { ImageRow } from "./image";
import { legsOff, slotOfLeg } from "./patched";
import type { Monitor, Sum } from "./setup";
import type { Side } from "./units";
import { slotsSaid } from "./words";

/** What of a sum is switched off in its slots. */
export interface SwitchedOff {
  /** As the beginning of a sentence: "The left leg of Drums is off". */
  readonly says: string;
  /** What to do, as a sentence. */
  readonly remedy: string;
  /** The leg that still arrives; null when nothing does. */
  readonly left: Side | null;
}

/** What of a sum is switched off in its slots; null when each leg that has a slot is on. */
export const switchedOff = (monitor: Monitor, sum: Sum): SwitchedOff | null => {
  const [left, right] = legsOff(monitor, sum);
  if (!left && !right) return null;
  const sides = sum.stereo
    ? (["left", "right"] as const).filter((side) => (side === "left" ? left : right))
    : [];
  const slots = (sum.stereo ? sides : (["left"] as const)).map((side) => slotOfLeg(monitor, sum, side));
  const name = sumCalled(sum);
  const [only] = sides;
  const one = only !== undefined && sides.length === 1;
  return {
    says: one
      ? `The ${only} leg of ${name} is off`
      : `${sum.stereo ? `Both legs of ${name} are` : `${name} is`} off`,
    remedy: `Under Patch, switch ${slotsSaid([...slots].sort((a, b) => a - b))} on.`,
    left: one ? (only === "left" ? "right" : "left") : null,
  };
};

/** What somebody hears of a sum of which something is off: "The left leg of Drums is off: Mara hears only …". */
export const offSaid = (
  { says, left }: SwitchedOff,
  who: string,
  rows: readonly Pick<ImageRow, "legs">[],
): string => {
  const [inLeft, inRight] = [rows.some(({ legs }) => legs[0] > 0), rows.some(({ legs }) => legs[1] > 0)];
  if (!left || (!inLeft && !inRight)) return `${says}: ${who} hears nothing of it`;
  const where = inLeft && inRight ? "both ears" : `the ${inLeft ? "left" : "right"} ear`;
  return `${says}: ${who} hears only the ${left} one, in ${where}`;
};
