import { controlKey, controlValue, type DeskControl } from "../core/inputs/controls";
import type { DeskMove } from "../core/inputs/desk-list";
import { tickedValue } from "./desk-tick-field";
import type { DeskTick } from "./schema";

/** What is known to stand at the desk by the ticks. */
export const tickedControls = (ticks: readonly DeskTick[]): DeskControl[] =>
  ticks.map((tick) => {
    const { control, id, bus } = tick;
    return { control, id, bus, value: tickedValue(tick) } as DeskControl;
  });

/** The tick of each control, for looking many up. */
export const ticksByControl = (ticks: readonly DeskTick[]): ReadonlyMap<string, DeskTick> =>
  new Map(ticks.map((tick) => [controlKey(tick), tick]));

/** The tick of a move; null where there is none, or the control was ticked at another value. */
export const tickOf = (
  ticks: ReadonlyMap<string, DeskTick>,
  move: Pick<DeskMove, "control" | "id" | "bus" | "to">,
): DeskTick | null => {
  const tick = ticks.size > 0 ? ticks.get(controlKey(move)) : undefined;
  return tick && tick.value === controlValue(move.to) ? tick : null;
};
