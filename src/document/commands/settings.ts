import type { Console, Ear, Monitor, Wishes } from "../../core/setup";
import { amend } from "../amend";
import { TYPICAL_EAR } from "../blank";
import { type Command, step } from "../command";
import { mend } from "../mend";

/** Changes what is said of the console. */
export const editConsole = (patch: Partial<Console>): Command =>
  step("change console", (file) => amend(file, { console: amend(file.console, patch) }));

/** Changes what is said of the monitor system; how many slots there are is `setSlotCount`. */
export const editMonitor = (patch: Partial<Omit<Monitor, "slots" | "slotCount">>): Command =>
  step("change monitor system", (file) => amend(file, { monitor: amend(file.monitor, patch) }));

/** Changes what a repair may do and for whom. */
export const editWishes = (patch: Partial<Wishes>): Command =>
  step("change wishes", (file) => mend(amend(file, { wishes: amend(file.wishes, patch) })));

/** Changes the data for the estimate of the level at the ear; begins it where there was none; null ends it. */
export const editEar = (patch: Partial<Ear> | null): Command =>
  step("change earphones", (file) =>
    amend(file, { ear: patch === null ? null : amend(file.ear ?? TYPICAL_EAR, patch) }),
  );

/** Names the setup. */
export const rename = (name: string): Command => step("rename", (file) => amend(file, { name }));

/** Notes on the setup. */
export const setNote = (note: string): Command => step("change note", (file) => amend(file, { note }));
