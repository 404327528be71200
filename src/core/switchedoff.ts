import { sumCalled } from "./called";
import type { ImageRow } from "./image";
import { legsOf } from "./legs";
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
  const off = legsOff(monitor, sum);
  const legs = legsOf(sum).filter((_, at) => off[at]);
  if (legs.length === 0) return null;
  const slots = legs.map((leg) => slotOfLeg(monitor, sum, leg)).sort((a, b) => a - b);
  const name = sumCalled(sum);
  const only = sum.stereo && legs.length === 1 ? legs[0] : undefined;
  return {
    says: only
      ? `The ${only} leg of ${name} is off`
      : `${sum.stereo ? `Both legs of ${name} are` : `${name} is`} off`,
    remedy: `Switch ${slotsSaid(slots)} on at the patch.`,
    left: only ? (only === "left" ? "right" : "left") : null,
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
