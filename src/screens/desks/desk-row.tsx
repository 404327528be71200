import { useSignal } from "@preact/signals";
import { editDesk } from "../../document/commands/settings";
import { deskOf, printDesk } from "../../document/desk-file";
import { current, readOnly } from "../../document/store";
import type { SavedDesk } from "../../shelf/desks";
import { deskInUse, desks } from "../../shelf/desks-here";
import { exportText } from "../../shelf/file";
import { saveFile } from "../../shelf/share";
import { formatDeskSize } from "../../text/desks";
import { describeReadRefusal } from "../../text/reading";
import { Fold } from "../../ui/fold";
import { MoreButton } from "../../ui/more-button";
import { runWithWord } from "../act";
import { asFile } from "../as-file";
import { attempt } from "../attempt";
import { oneAtATime } from "../one-at-a-time";
import { RenameField } from "../rename-field";
import { ShareThing } from "../setups/share-thing";
import { deskTitle } from "../shown-names";
import { toast } from "../state";
import { DeskSettings } from "./desk-facts";

const duplicate = oneAtATime((line: SavedDesk) =>
  attempt("Not copied", async () => {
    const name = await desks.duplicate(line.id);
    toast.value = { says: `Copied as “${deskTitle({ name })}”`, undo: false };
  }),
);

const remove = oneAtATime((line: SavedDesk) =>
  attempt("Not removed", async () => {
    const putBack = await desks.remove(line.id);
    const undo = () => void attempt("Not restored", putBack);
    toast.value = { says: `Saved desk “${deskTitle(line)}” removed`, undo };
  }),
);

const takeAsItIs = ({ id, name }: SavedDesk) =>
  attempt("No file made", async () => saveFile(asFile(exportText(name, await desks.textOf(id), "desk"))));

const rename = async ({ id }: SavedDesk, next: string): Promise<void> => {
  const kept = await desks.rename(id, next);
  if (kept !== next) toast.value = { says: `“${next}” is taken: renamed to “${kept}”`, undo: false };
};

/** What can be done with a saved desk besides using it. */
const Actions = ({ line }: { line: SavedDesk }) => {
  const { read } = line;
  return (
    <div class="stack">
      {read.ok ? <DeskSettings desk={deskOf(read.file)} notes={read.notes} /> : null}
      <RenameField
        key={line.name}
        label="Name of the saved desk"
        name={line.name}
        rename={(next) => rename(line, next)}
      />
      <div class="row">
        <button type="button" disabled={readOnly.value} onClick={() => duplicate.run(line)}>
          Duplicate
        </button>
        <button type="button" disabled={readOnly.value} onClick={() => remove.run(line)}>
          Remove
        </button>
        {read.ok ? null : (
          <button type="button" onClick={() => takeAsItIs(line)}>
            Download the file as it is
          </button>
        )}
      </div>
      {read.ok ? (
        <Fold look="explain" title="Share this desk">
          {() => (
            <ShareThing
              what="desk"
              name={deskTitle(line)}
              file={read.file}
              exported={() => exportText(line.name, printDesk(deskOf(read.file)), "desk")}
            />
          )}
        </Fold>
      ) : null}
    </div>
  );
};

/** One saved desk: a button copies it into the open setup, the rest is behind the second one. */
export const DeskRow = ({ line, isHere }: { line: SavedDesk; isHere: boolean }) => {
  const more = useSignal(false);
  const { read } = line;
  const name = deskTitle(line);
  return (
    <li class="stack saved-desk">
      <div class="row">
        <p class="grow">
          <b>{name}</b>
          {read.ok ? <span class="soft small">{formatDeskSize(deskOf(read.file))}</span> : null}
          {isHere ? <span class="good small">in this setup</span> : null}
        </p>
        {read.ok && !isHere ? (
          <button
            type="button"
            disabled={readOnly.value}
            aria-label={`Use ${name} in this setup`}
            onClick={() => {
              runWithWord(editDesk(deskOf(read.file)), `This setup’s desk is now “${name}”`);
              void deskInUse.choose(current.peek().desk);
            }}
          >
            Use
          </button>
        ) : null}
        <MoreButton name={name} open={more} />
      </div>
      {read.ok ? null : <p class="notice bad">{describeReadRefusal(read.why)}</p>}
      {more.value ? <Actions line={line} /> : null}
    </li>
  );
};
