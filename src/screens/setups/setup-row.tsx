import { useSignal } from "@preact/signals";
import { once } from "../../core/lib/memo";
import { LIMITS } from "../../document/limits";
import { readOnly } from "../../document/store";
import { exportText } from "../../shelf/file";
import { shelf } from "../../shelf/here";
import type { OnShelf } from "../../shelf/record";
import { shareFile } from "../../shelf/share";
import { Icon } from "../../ui/icon";
import { TextField } from "../../ui/text-field";
import { asFile } from "../as-file";
import { attempt } from "../attempt";
import { oneAtATime } from "../one-at-a-time";
import { goTo } from "../route";
import { setupName } from "../shown-names";
import { toast } from "../state";

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
    toast.value = { says: `Copied as “${setupName(copy)}”`, undo: false };
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
const Actions = ({ line }: { line: OnShelf }) => {
  const name = useSignal(line.name);
  const isBlank = name.value.trim() === "";
  const rename = async () => {
    const next = name.value.trim();
    if (next !== "" && next !== line.name) await attempt("Not renamed", () => shelf.rename(line.id, next));
  };
  return (
    <div class="stack">
      <TextField
        label="Name"
        most={LIMITS.name}
        value={name.value}
        disabled={readOnly.value}
        onValue={(text) => {
          name.value = text;
        }}
        onDone={rename}
      />
      {isBlank ? <p class="bad small">Name: empty. The old name stays.</p> : null}
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
};

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
        <button
          type="button"
          class="bare"
          aria-expanded={more.value}
          aria-label={`More for ${name}`}
          onClick={() => {
            more.value = !more.value;
          }}
        >
          <Icon name={more.value ? "up" : "more"} />
        </button>
      </div>
      {more.value ? <Actions line={line} /> : null}
    </li>
  );
};
