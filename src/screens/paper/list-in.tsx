import { useSignal } from "@preact/signals";
import { drumBusOf, isForDrumBus, withDrumBus } from "../../core/inputs/drum-bus";
import { type ListLine, type ListMode, withList } from "../../core/inputs/list";
import { listChanges, moves } from "../../core/inputs/list-changes";
import type { Setup } from "../../core/model/setup";
import { replaceSetup } from "../../document/commands/apply";
import { tooMuch } from "../../document/limits";
import { current, readOnly } from "../../document/store";
import type { CsvTable, Delimiter } from "../../shelf/csv";
import { guessMapping } from "../../shelf/csv-columns";
import { readList } from "../../shelf/csv-list";
import { describeCsvNote } from "../../text/csv";
import { describeExcess } from "../../text/excess";
import { formatCount } from "../../text/words";
import { Choice, Tick } from "../../ui/choice";
import { Sentences } from "../../ui/sentences";
import { runWithWord } from "../act";
import { busTitle } from "../shown-names";
import { Columns } from "./columns";
import { DelimiterChoice } from "./delimiter";
import { Changes, Faults } from "./list-preview";

const Import = (props: { lines: readonly ListLine[]; namesBuses: boolean; onDone: () => void }) => {
  const { lines, namesBuses, onDone } = props;
  const mode = useSignal<ListMode>("add");
  const isSent = useSignal(true);
  const setup = current.value;
  const drumBus = drumBusOf(setup);
  const listed = (s: Setup): Setup => withList(s, lines, mode.value);
  const imported = (s: Setup): Setup =>
    namesBuses || !isSent.value ? listed(s) : withDrumBus(listed(s), s, drumBus?.id ?? null);
  const after = imported(setup);
  const before = new Set(setup.channels.map(({ id }) => id));
  const hasNewDrums = after.channels.some((channel) => isForDrumBus(channel) && !before.has(channel.id));
  const changes = listChanges(setup, after);
  const trouble = tooMuch(after);
  const says = formatCount(lines.length, "channel");
  return (
    <>
      <Choice
        label="Channels that are not on the list"
        value={mode.value}
        options={[
          ["add", "Keep them"],
          ["replace", "Remove them"],
        ]}
        onValue={(m) => {
          mode.value = m;
        }}
      />
      {hasNewDrums && !namesBuses ? (
        <Tick
          label={`Send new drums and percussion to ${drumBus ? busTitle(drumBus.id) : "a new stereo bus"}`}
          value={isSent.value}
          onValue={(on) => {
            isSent.value = on;
          }}
        />
      ) : null}
      <Changes changes={changes} notation={setup.desk} />
      {trouble ? <p class="notice bad">{describeExcess(trouble)}</p> : null}
      <button
        type="button"
        class="main"
        disabled={readOnly.value || trouble !== null || !changes.some(moves)}
        onClick={() => {
          runWithWord(replaceSetup("import the list", imported), `${says} imported`);
          onDone();
        }}
      >
        Import {says}
      </button>
    </>
  );
};

/** A table that becomes an input list: how it is read, what it changes or what is wrong, and its import. */
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
      <Sentences says={notes.map(describeCsvNote)} />
      {read.ok ? (
        <Import lines={read.lines} namesBuses={read.namesBuses} onDone={props.onDone} />
      ) : (
        <Faults faults={read.why} />
      )}
      <div class="row">
        <button type="button" onClick={props.onDone}>
          Cancel
        </button>
      </div>
    </section>
  );
};
