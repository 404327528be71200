import type { SetupFile } from "../../document/schema";
import { describeReadNote, type ReadNote } from "../../text/reading";
import { formatCount, formatList } from "../../text/words";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { HANDS } from "../shown-names";

const contents = (file: SetupFile): string => {
  const { channels, buses, listeners, monitor, kit } = file;
  const used = monitor.inputs.filter((input) => input !== null).length;
  const things = [
    formatCount(channels.length, "channel"),
    formatCount(buses.length, "bus", "buses"),
    formatCount(listeners.length, "listener"),
    `${used} of ${formatCount(monitor.inputCount, "input")} used`,
  ];
  const hand = HANDS.find(([id]) => id === kit.hand)?.[1].toLowerCase();
  return `${formatList(things)}; ${hand} kit.`;
};

/** What of a file was not understood; nothing where all of it was. */
export const FileNotes = ({ notes }: { notes: readonly ReadNote[] }) =>
  notes.length === 0 ? null : (
    <Fold look="explain" title={`${formatCount(notes.length, "problem")} in the file; the rest is complete`}>
      {() => <Sentences says={notes.map(describeReadNote)} />}
    </Fold>
  );

/** What a setup has in it, without opening it. */
export const Facts = ({ file, notes }: { file: SetupFile; notes: readonly ReadNote[] }) => (
  <>
    <p>{contents(file)}</p>
    {file.example ? <p class="soft small">An example with invented data.</p> : null}
    {file.note === "" ? null : <p class="soft small">Note: {file.note}</p>}
    <FileNotes notes={notes} />
  </>
);
