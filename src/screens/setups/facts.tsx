import { counted, listed } from "../../core/words";
import type { SetupFile } from "../../document/schema";
import { Fold } from "../../pieces/fold";
import { Sentences } from "../../pieces/sentences";
import { HANDS } from "../names";

const contents = (file: SetupFile): string => {
  const { sources, sums, listeners, monitor, kit } = file;
  const used = monitor.slots.filter((slot) => slot !== null).length;
  const things = [
    counted(sources.length, "source"),
    counted(sums.length, "sum"),
    counted(listeners.length, "listener"),
    `${used} of ${counted(monitor.slotCount, "slot")} in use`,
  ];
  const hand = HANDS.find(([id]) => id === kit.hand)?.[1].toLowerCase();
  return `${listed(things)}; ${hand} kit.`;
};

const Notes = ({ notes }: { notes: readonly string[] }) => (
  <Fold look="explain" title={`Not understood in ${counted(notes.length, "place")}; the rest is whole`}>
    {() => <Sentences says={notes} />}
  </Fold>
);

/** What a setup has in it, without opening it. */
export const Facts = ({ file, notes }: { file: SetupFile; notes: readonly string[] }) => (
  <>
    <p>{contents(file)}</p>
    {file.example ? <p class="soft small">An example with invented data.</p> : null}
    {file.note === "" ? null : <p class="soft small">Note: {file.note}</p>}
    {notes.length === 0 ? null : <Notes notes={notes} />}
  </>
);
