import { mergeTicks } from "../../document/commands/ticks";
import { current, readOnly } from "../../document/store";
import { logOf } from "../../document/tick-log";
import type { TicksFile } from "../../document/ticks-file";
import { shelf, takeOver } from "../../shelf/here";
import { describeMerged, describeTicks } from "../../text/ticks";
import { Verdict } from "../../ui/verdict";
import { runOrSay } from "../act";
import { oneAtATime } from "../one-at-a-time";
import { replacePlace } from "../route";
import { setupName } from "../shown-names";
import { toast } from "../state";
import { incoming, letGo } from "./incoming";

/** Merges ticks into the setup that they are for, and leads to it. */
const merge = oneAtATime(async ({ of, ticks }: TicksFile) => {
  if (readOnly.peek()) await takeOver();
  if (shelf.openId.peek() !== of) await shelf.open(of);
  if (shelf.openId.peek() !== of) return;
  const before = logOf(current.peek()).length;
  const command = mergeTicks(ticks);
  incoming.value = null;
  replacePlace("check");
  if (command.apply(current.peek()) === current.peek()) {
    toast.value = { says: "Nothing new: these ticks are here already", undo: false };
    return;
  }
  if (!runOrSay(command, "Not merged")) return;
  const all = logOf(current.peek());
  const texts = new Set(all.map((entry) => JSON.stringify(entry)));
  const leftOut = ticks.filter((entry) => !texts.has(JSON.stringify(entry))).length;
  toast.value = { says: describeMerged(all.length - before, leftOut), undo: current.peek() };
});

/** A helper’s ticks that came back: shown first, merged on a tap. */
export const TicksIn = ({ file, from }: { file: TicksFile; from: string }) => {
  const line = shelf.list.value.find((l) => l.id === file.of);
  const title = setupName(line ?? file);
  if (!line)
    return (
      <>
        <Verdict tone="wrong" says={`These ticks are for “${title}”, which is not on this device`}>
          From {from}. Open them on the phone that handed the setup over, in the same browser.
        </Verdict>
        <button type="button" onClick={letGo}>
          Back to setups
        </button>
      </>
    );
  return (
    <>
      <Verdict tone="care" says={`Merge ticks into “${title}”?`}>
        From {from}. {describeTicks(file.ticks)} Nothing of yours is overwritten: the later tick counts, and
        both stay with their times.
      </Verdict>
      <div class="row">
        <button type="button" class="main" disabled={merge.isBusy.value} onClick={() => merge.run(file)}>
          Merge
        </button>
        <button type="button" disabled={merge.isBusy.value} onClick={letGo}>
          Cancel
        </button>
      </div>
    </>
  );
};

/** Some codes of a link have been read, not all. */
export const PartsIn = ({ have, of }: { have: readonly number[]; of: number }) => {
  const missing = Array.from({ length: of }, (_, at) => at + 1).filter((at) => !have.includes(at));
  return (
    <>
      <Verdict tone="care" says={`${have.length} of ${of} codes read`}>
        Now point the camera at code {missing[0]}. It opens once all codes are read.
      </Verdict>
      <button type="button" onClick={letGo}>
        Cancel
      </button>
    </>
  );
};
