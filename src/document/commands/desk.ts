import { controlKey, controlValue } from "../../core/inputs/controls";
import type { DeskMove } from "../../core/inputs/desk-list";
import { type Command, step } from "../command";
import { tickOf, ticksByControl } from "../desk-ticks";
import { LIMITS } from "../limits";
import { mend } from "../mend";
import type { DeskTick, SetupFile, Stamp } from "../schema";

const withTicks = ({ deskTicks: _, ...file }: SetupFile, ticks: readonly DeskTick[]): SetupFile =>
  mend(ticks.length > 0 ? { ...file, deskTicks: ticks } : file);

/**
 * Ticks a control of the desk list as set, or takes its tick off. Nothing happens beyond `LIMITS.deskTicks`.
 * @param stamp who and when; null takes the tick off
 */
export const tickMove = (move: DeskMove, stamp: Stamp | null): Command =>
  step(stamp ? "tick as set" : "take tick off", (file) => {
    const ticks = file.deskTicks ?? [];
    const isTicked = tickOf(ticksByControl(ticks), move) !== null;
    if (isTicked === (stamp !== null)) return file;
    const others = ticks.filter((tick) => controlKey(tick) !== controlKey(move));
    if (!stamp) return withTicks(file, others);
    if (others.length >= LIMITS.deskTicks) return file;
    const { control, id, bus, to } = move;
    return withTicks(file, [...others, { control, id, bus, value: controlValue(to), ...stamp }]);
  });

/** Takes every tick of the desk list off. */
export const clearDeskTicks = (): Command =>
  step("clear ticks", (file) => (file.deskTicks ? withTicks(file, []) : file));
