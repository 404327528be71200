import type { Desk, Earphone, MonitorSystem, Preferences } from "../../core/model/setup";
import { amend } from "../amend";
import { TYPICAL_EARPHONE } from "../blank";
import { type EditCommand, edit, fieldsOf } from "../command";
import { mend } from "../mend";

/** Changes what is said of the console. */
export const editDesk = (patch: Partial<Desk>): EditCommand =>
  edit("change desk", `desk ${fieldsOf(patch)}`, (file) => amend(file, { desk: amend(file.desk, patch) }));

/** Changes what is said of the monitor system; how many inputs there are is `setInputCount`. */
export const editMonitorSystem = (
  patch: Partial<Omit<MonitorSystem, "inputs" | "inputCount">>,
): EditCommand =>
  edit("change monitor system", `monitor ${fieldsOf(patch)}`, (file) =>
    amend(file, { monitor: amend(file.monitor, patch) }),
  );

/** Changes what a recommendation may do and for whom. */
export const editPreferences = (patch: Partial<Preferences>): EditCommand =>
  edit("change preferences", `preferences ${fieldsOf(patch)}`, (file) =>
    mend(amend(file, { preferences: amend(file.preferences, patch) })),
  );

/** Changes the data for the estimate of the earphone level; begins it where there was none; null ends it. */
export const editEarphone = (patch: Partial<Earphone> | null): EditCommand =>
  edit("change earphone", `earphone ${fieldsOf(patch)}`, (file) =>
    amend(file, { earphone: patch === null ? null : amend(file.earphone ?? TYPICAL_EARPHONE, patch) }),
  );

/** Names the setup. */
export const rename = (name: string): EditCommand => edit("rename", "name", (file) => amend(file, { name }));

/** Notes on the setup. */
export const setNote = (note: string): EditCommand =>
  edit("change note", "note", (file) => amend(file, { note }));
