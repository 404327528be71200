import { useSignal } from "@preact/signals";
import { type ListMode, type ListRow, withList } from "../../core/inputs/list";
import type { Setup } from "../../core/model/setup";
import { replaceSetup } from "../../document/commands/apply";
import { tooMuch } from "../../document/limits";
import { current, readOnly } from "../../document/store";
import type { CsvTable, Delimiter } from "../../shelf/csv";
import { guessMapping } from "../../shelf/csv-columns";
import { readList } from "../../shelf/csv-list";
import { formatCount } from "../../text/words";
import { Choice } from "../../ui/choice";
import { Sentences } from "../../ui/sentences";
import { runWithWord } from "../act";
import { Columns } from "./columns";
import { DelimiterChoice } from "./delimiter";
import { Faults, RowsPreview } from "./list-preview";

/** What taking the rows in does to the channels, as a sentence. */
const effect = (before: Setup, after: Setup, rows: number): string => {
  const was = new Set(before.channels.map((s) => s.id));
  const is = new Set(after.channels.map((s) => s.id));
  const fresh = after.channels.filter((s) => !was.has(s.id)).length;
  const gone = before.channels.filter((s) => !is.has(s.id)).length;
  return `Of ${formatCount(rows, "row")}, ${fresh} ${fresh === 1 ? "is" : "are"} new and ${rows - fresh} of a name that is there already.${gone === 0 ? "" : ` ${formatCount(gone, "channel")} would go.`}`;
};

const Take = ({ rows, onDone }: { rows: readonly ListRow[]; onDone: () => void }) => {
  const mode = useSignal<ListMode>("add");
  const setup = current.value;
  const after = withList(setup, rows, mode.value);
  const trouble = tooMuch(after);
  const says = formatCount(rows.length, "channel");
  return (
    <>
      <Choice
        label="Channels that the list does not name"
        value={mode.value}
        options={[
          ["add", "Stay"],
          ["replace", "Go"],
        ]}
        onValue={(m) => {
          mode.value = m;
        }}
      />
      <p class="soft small">{effect(setup, after, rows.length)}</p>
      {trouble ? <p class="notice bad">{trouble}</p> : null}
      <button
        type="button"
        class="main"
        disabled={readOnly.value || trouble !== null}
        onClick={() => {
          runWithWord(
            replaceSetup("take in the list", (s) => withList(s, rows, mode.value)),
            `${says} taken in`,
          );
          onDone();
        }}
      >
        Take {rows.length === 1 ? "this channel" : `these ${says}`}
      </button>
    </>
  );
};

/** A table that becomes an input list: how it is read, what comes out or is wrong, and the taking of it. */
export const ListIn = (props: {
  name: string;
  table: CsvTable;
  onDelimiter: (delimiter: Delimiter) => void;
  onDone: () => void;
}) => {
  const { table } = props;
  const header = useSignal(table.header);
  const mapping = useSignal(table.mapping);
  const last = useSignal(table);
  if (last.value !== table) {
    last.value = table;
    header.value = table.header;
    mapping.value = table.mapping;
  }
  const read = readList(table, mapping.value, header.value, current.value);
  const notes = [...table.notes, ...(read.ok ? read.notes : [])];
  return (
    <section class="stack" aria-label={`From ${props.name}`}>
      <h3>From {props.name}</h3>
      <DelimiterChoice value={table.delimiter} onValue={props.onDelimiter} />
      <Choice
        label="The first row"
        value={header.value ? "names" : "data"}
        options={[
          ["names", "names the columns"],
          ["data", "is a channel"],
        ]}
        onValue={(v) => {
          header.value = v === "names";
          mapping.value = guessMapping(
            table.rows.map((row) => row.cells),
            header.value,
          );
        }}
      />
      <Columns
        table={table}
        header={header.value}
        mapping={mapping.value}
        onMapping={(next) => {
          mapping.value = next;
        }}
      />
      <Sentences says={notes} />
      {read.ok ? (
        <>
          <RowsPreview rows={read.rows} />
          <Take rows={read.rows} onDone={props.onDone} />
        </>
      ) : (
        <Faults faults={read.faults} />
      )}
      <div class="row">
        <button type="button" onClick={props.onDone}>
          Leave it
        </button>
      </div>
    </section>
  );
};
