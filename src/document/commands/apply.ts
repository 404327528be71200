import type { Setup } from "../../core/model/setup";
import { amend } from "../amend";
import { type Command, step } from "../command";
import { tooMuch } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";
import { withoutStaleTicks } from "../ticks";

/**
 * Runs a change that the arithmetic worked out: a recommendation, a way back under the input count, an input list.
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
