import { inputOfSide, sidesOff } from "../mix/pair-order";
import type { Bus, MonitorSystem } from "../model/setup";
import { sidesOf } from "../model/sides";
import type { Side } from "../model/units";

/** What of a bus is switched off in its inputs. */
export interface SwitchedOff {
  /** The sides that are off; a mono bus has its left one only. */
  readonly sides: readonly Side[];
  /** Their inputs, indexes from 0, in order. */
  readonly inputs: readonly number[];
  /** The side that still arrives; null when nothing does. */
  readonly remains: Side | null;
}

/** What of a bus is switched off in its inputs; null when each side that has an input is on. */
export const switchedOff = (monitor: MonitorSystem, bus: Bus): SwitchedOff | null => {
  const off = sidesOff(monitor, bus);
  const sides = sidesOf(bus).filter((_, at) => off[at]);
  if (sides.length === 0) return null;
  const inputs = sides.map((side) => inputOfSide(monitor, bus, side)).sort((a, b) => a - b);
  const remains = sidesOf(bus).find((side) => !sides.includes(side)) ?? null;
  return { sides, inputs, remains };
};
