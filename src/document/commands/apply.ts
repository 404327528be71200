import type { Setup } from "../../core/setup";
import { amend } from "../amend";
import { type Command, step } from "../command";
import { mend } from "../mend";
import { withoutStaleTicks } from "../ticks";

/** Runs a change that the arithmetic worked out: a repair, a trim that restores the margin, figures of a recording. */
export const replaceSetup = (label: string, change: (setup: Setup) => Setup): Command =>
  step(label, (file) => mend(withoutStaleTicks(file, amend(file, change(file)))));
