import type { Desk, Earphone, MonitorSystem, Preferences } from "../../core/model/setup";
import { amend } from "../amend";
import { TYPICAL_EARPHONE } from "../blank";
import { type Command, step } from "../command";
import { mend } from "../mend";

/** Changes what is said of the console. */
export const editDesk = (patch: Partial<Desk>): Command =>
  step("change console", (file) => amend(file, { desk: amend(file.desk, patch) }));

/** Changes what is said of the monitor system; how many inputs there are is `setInputCount`. */
export const editMonitorSystem = (patch: Partial<Omit<MonitorSystem, "inputs" | "inputCount">>): Command =>
  step("change monitor system", (file) => amend(file, { monitor: amend(file.monitor, patch) }));

/** Changes what a recommendation may do and for whom. */
export const editPreferences = (patch: Partial<Preferences>): Command =>
  step("change wishes", (file) => mend(amend(file, { preferences: amend(file.preferences, patch) })));

/** Changes the data for the estimate of the level at the ear; begins it where there was none; null ends it. */
export const editEarphone = (patch: Partial<Earphone> | null): Command =>
  step("change earphones", (file) =>
    amend(file, { earphone: patch === null ? null : amend(file.earphone ?? TYPICAL_EARPHONE, patch) }),
  );

/** Names the setup. */
export const rename = (name: string): Command => step("rename", (file) => amend(file, { name }));

/** Notes on the setup. */
export const setNote = (note: string): Command => step("change note", (file) => amend(file, { note }));
