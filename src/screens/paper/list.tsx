import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { listOf } from "../../core/inputs/list";
import { listBusOf } from "../../core/inputs/list-sends";
import { quoted } from "../../core/lib/direction";
import { current, readOnly } from "../../document/store";
import { type Delimiter, type OpenedCsv, openCsv } from "../../shelf/csv";
import { csvStyle, listToCsv } from "../../shelf/csv-write";
import { describeCsvRefusal } from "../../text/csv";
import { FileButton } from "../file-button";
import { arrivedList } from "./arrived-list";
import { sendCsv } from "./csv-out";
import { ListIn } from "./list-in";

/** Text that the user pasted, or a file. */
interface Given {
  readonly name: string;
  readonly data: Blob;
}

const Paste = ({ onGiven }: { onGiven: (given: Given) => void }) => {
  const text = useSignal("");
  return (
    <>
      <label class="field">
        <span class="label">Or paste rows from a spreadsheet</span>
        <textarea
          rows={3}
          spellcheck={false}
          value={text.value}
          onInput={(e) => {
            text.value = e.currentTarget.value;
          }}
        />
      </label>
      <button
        type="button"
        disabled={text.value.trim() === ""}
        onClick={() => onGiven({ name: "pasted rows", data: new Blob([text.value]) })}
      >
        Read pasted rows
      </button>
    </>
  );
};

/** Opens what was given, again when the user knows the delimiter better; null until it is open. */
const useOpened = (given: Given | null, delimiter: Delimiter | undefined): OpenedCsv | null => {
  const done = useSignal<{ readonly of: Given; readonly opened: OpenedCsv } | null>(null);
  useEffect(() => {
    let isStale = false;
    if (!given) return;
    openCsv(given.data, delimiter).then((opened) => {
      if (!isStale) done.value = { of: given, opened };
    });
    return () => {
      isStale = true;
    };
  }, [given, delimiter, done]);
  return done.value?.of === given ? done.value.opened : null;
};

/** The input list out to a spreadsheet, and in from one: seen before anything is imported. */
export const ListInOut = () => {
  const given = useSignal<Given | null>(null);
  const delimiter = useSignal<Delimiter | undefined>(undefined);
  const opened = useOpened(given.value, delimiter.value);
  const look = (next: Given | null) => {
    delimiter.value = undefined;
    given.value = next;
  };
  const lookInto = (file: File) => look({ name: quoted(file.name), data: file });
  const arrived = arrivedList.value;
  useEffect(() => {
    if (!arrived) return;
    arrivedList.value = null;
    lookInto(arrived);
  }, [arrived]);
  return (
    <div class="stack">
      <div class="row">
        <button
          type="button"
          onClick={() =>
            sendCsv(
              current.value.name,
              "input list",
              listToCsv(
                listOf(current.value),
                csvStyle(navigator.language),
                current.value.buses.map(listBusOf),
              ),
            )
          }
        >
          Export list as CSV
        </button>
        <FileButton
          label="Import a CSV list"
          accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
          onFiles={([file]) => file && lookInto(file)}
        />
      </div>
      {given.value ? null : <Paste onGiven={look} />}
      {readOnly.value ? <p class="soft">Another tab is editing: nothing can be imported here.</p> : null}
      {opened && !opened.ok ? (
        <div class="notice bad stack" role="alert">
          <p>{describeCsvRefusal(opened.why)}</p>
          {delimiter.value === undefined ? null : (
            <button
              type="button"
              onClick={() => {
                delimiter.value = undefined;
              }}
            >
              Use the delimiter that was found
            </button>
          )}
          <button type="button" onClick={() => look(null)}>
            Cancel
          </button>
        </div>
      ) : null}
      {given.value && opened?.ok ? (
        <ListIn
          name={given.value.name}
          table={opened.table}
          onDelimiter={(d) => {
            delimiter.value = d;
          }}
          onDone={() => look(null)}
        />
      ) : null}
    </div>
  );
};
