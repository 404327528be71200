import type { Setup } from "../../core/setup";
import { amend } from "../amend";
import { type Command, step } from "../command";
import { tooMuch } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";
import { withoutStaleTicks } from "../ticks";

/**
 * Runs a change that the arithmetic worked out: a repair, a way back under the slot count, an input list.
 * One that would hold more than a setup may is refused: it could not be read again.
 */
export const replaceSetup = (label: string, change: (setup: Setup) => Setup): Command => {
  const changed = (file: SetupFile): SetupFile => mend(withoutStaleTicks(file, amend(file, change(file))));
  return {
    ...step(label, (file) => {
      const next = changed(file);
      return tooMuch(next) ? file : next;
    }),
    refuses: (file) => tooMuch(changed(file)),
  };
};
