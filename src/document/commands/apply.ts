import type { Setup } from "../../core/setup";
import { amend } from "../amend";
import { type Command, step } from "../command";
import { mend } from "../mend";

/** Runs a change that the arithmetic worked out: a repair, a trim that restores the margin, figures of a recording. */
export const replaceSetup = (label: string, change: (setup: Setup) => Setup): Command =>
  step(label, (file) => mend(amend(file, change(file))));
