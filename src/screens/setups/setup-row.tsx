import { useSignal } from "@preact/signals";
import { once } from "../../core/lib/memo";
import { readOnly } from "../../document/store";
import { exportText } from "../../shelf/file";
import { shelf } from "../../shelf/here";
import type { OnShelf } from "../../shelf/record";
import { shareFile } from "../../shelf/share";
import { MoreButton } from "../../ui/more-button";
import { asFile } from "../as-file";
import { attempt } from "../attempt";
import { oneAtATime } from "../one-at-a-time";
import { RenameField } from "../rename-field";
import { goTo } from "../route";
import { setupName } from "../shown-names";
import { toast } from "../state";
import { freshCopy } from "./next-time";

// The first format costs a slow phone a tenth of a second: made when it is wanted, not when this is loaded.
const when = once(() => new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" }));

const open = async (id: string): Promise<void> => {
  if (shelf.openId.peek() !== id) await shelf.open(id);
  if (shelf.openId.peek() === id) goTo("channels");
};

const duplicate = oneAtATime((line: OnShelf) =>
  attempt("Not copied", async () => {
    await shelf.duplicate(line.id);
    const [copy = line] = shelf.list.peek();
    await shelf.open(copy.id);
    if (shelf.openId.peek() === copy.id) {
      freshCopy.value = copy.id;
      // What it is called now stands in the questions, which a toast would cover.
      scrollTo(0, 0);
    } else toast.value = { says: `Copied as “${setupName(copy)}”`, undo: false };
  }),
);

const remove = oneAtATime((line: OnShelf) =>
  attempt("Not removed", async () => {
    const putBack = await shelf.remove(line.id);
    toast.value = { says: `“${setupName(line)}” removed`, undo: () => void attempt("Not restored", putBack) };
  }),
);

const send = oneAtATime(({ id, name }: OnShelf) =>
  attempt("No file made", async () => shareFile(asFile(exportText(name, await shelf.textOf(id))))),
);

/** What can be done with a setup besides opening it. */
const Actions = ({ line }: { line: OnShelf }) => (
  <div class="stack">
    <RenameField label="Name" name={line.name} rename={(next) => shelf.rename(line.id, next)} />
    <div class="row">
      <button type="button" disabled={readOnly.value} onClick={() => duplicate.run(line)}>
        Duplicate
      </button>
      <button type="button" onClick={() => send.run(line)}>
        Share or download the file
      </button>
      <button type="button" disabled={readOnly.value} onClick={() => remove.run(line)}>
        Remove
      </button>
    </div>
  </div>
);

/** One saved setup: a tap opens it, the rest is behind the second button. */
export const SetupRow = ({ line }: { line: OnShelf }) => {
  const more = useSignal(false);
  const name = setupName(line);
  const isOpen = shelf.openId.value === line.id;
  return (
    <li class={`card stack setup${isOpen ? " open" : ""}`}>
      <div class="row setup-head">
        <button type="button" class="bare grow setup-name" onClick={() => open(line.id)}>
          <b>{name}</b>
          <span class="soft small">
            {isOpen ? <b class="good">open now · </b> : null}
            changed {when().format(line.changed)}
          </span>
        </button>
        <MoreButton name={name} open={more} />
      </div>
      {more.value ? <Actions line={line} /> : null}
    </li>
  );
};
