import { controlValue } from "../../core/inputs/controls";
import type { DeskMove } from "../../core/inputs/desk-list";
import { type Command, step } from "../command";
import { tickOf, ticksByControl } from "../desk-ticks";
import { LIMITS } from "../limits";
import { mend } from "../mend";
import type { Stamp } from "../schema";
import { withWords } from "../tick-log";

/**
 * Ticks a control of the desk list as set, or takes its tick off. Nothing happens beyond `LIMITS.deskTicks`.
 * @param stamp who and when
 */
export const tickMove = (move: DeskMove, isSet: boolean, stamp: Stamp): Command =>
  step(isSet ? "tick as set" : "untick", (file) => {
    const ticks = file.deskTicks ?? [];
    const isTicked = tickOf(ticksByControl(ticks), move) !== null;
    if (isTicked === isSet || (isSet && ticks.length >= LIMITS.deskTicks)) return file;
    const { control, id, bus, to } = move;
    return mend(
      withWords(file, [{ control, id, bus, value: controlValue(to), said: isSet || null, ...stamp }]),
    );
  });

/** Takes every tick of the desk list off. */
export const clearDeskTicks = (stamp: Stamp): Command =>
  step("clear ticks", (file) =>
    file.deskTicks
      ? withWords(
          file,
          file.deskTicks.map((tick) => ({ ...tick, said: null, ...stamp })),
        )
      : file,
  );
