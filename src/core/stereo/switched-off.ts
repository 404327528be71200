import { inputOfSide, sidesOff } from "../mix/pair-order";
import type { Bus, MonitorSystem } from "../model/setup";
import { sidesOf } from "../model/sides";
import type { Side } from "../model/units";
import { busName } from "../names";
import { formatInputs } from "../words";
import type { ImageRow } from "./image";

/** What of a bus is switched off in its inputs. */
export interface SwitchedOff {
  /** As the beginning of a sentence: "The left side of Drums is off". */
  readonly says: string;
  /** What to do, as a sentence. */
  readonly remedy: string;
  /** The side that still arrives; null when nothing does. */
  readonly left: Side | null;
}

/** What of a bus is switched off in its inputs; null when each side that has an input is on. */
export const switchedOff = (monitor: MonitorSystem, bus: Bus): SwitchedOff | null => {
  const off = sidesOff(monitor, bus);
  const sides = sidesOf(bus).filter((_, at) => off[at]);
  if (sides.length === 0) return null;
  const inputs = sides.map((side) => inputOfSide(monitor, bus, side)).sort((a, b) => a - b);
  const name = busName(bus);
  const only = bus.stereo && sides.length === 1 ? sides[0] : undefined;
  return {
    says: only
      ? `The ${only} side of ${name} is off`
      : `${bus.stereo ? `Both sides of ${name} are` : `${name} is`} off`,
    remedy: `Switch ${formatInputs(inputs)} on at the patch.`,
    left: only ? (only === "left" ? "right" : "left") : null,
  };
};

/** What somebody hears of a sum of which something is off: "The left side of Drums is off: Mara hears only …". */
export const describeOff = (
  { says, left }: SwitchedOff,
  who: string,
  rows: readonly Pick<ImageRow, "sides">[],
): string => {
  const [inLeft, inRight] = [rows.some(({ sides }) => sides[0] > 0), rows.some(({ sides }) => sides[1] > 0)];
  if (!left || (!inLeft && !inRight)) return `${says}: ${who} hears nothing of it`;
  const where = inLeft && inRight ? "both ears" : `the ${inLeft ? "left" : "right"} ear`;
  return `${says}: ${who} hears only the ${left} one, in ${where}`;
};
