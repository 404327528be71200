import { asTyped } from "../../core/lib/number";
import type { CsvTable } from "../../shelf/csv";
import { columnLetters, FIELD_NAMES, FIELDS, type Mapping } from "../../shelf/csv-columns";
import { Pick } from "../../ui/choice";

const NONE = "";

/** Which column is read as what: guessed from the headers, changed by the user. */
export const Columns = (props: {
  table: CsvTable;
  header: boolean;
  mapping: Mapping;
  onMapping: (mapping: Mapping) => void;
}) => {
  const { table, header, mapping } = props;
  const width = Math.max(...table.rows.map((row) => row.cells.length));
  const first = table.rows[0]?.cells ?? [];
  const options = Array.from({ length: width }, (_, at) => {
    const text = asTyped(first[at] ?? "") || "blank";
    return [String(at), `${columnLetters(at + 1)}: ${header ? text : `“${text}”`}`] as const;
  });
  const used = FIELD_NAMES.filter((field) => mapping[field] !== null);
  return (
    <details open={mapping.name === null}>
      <summary>
        Columns: {used.length} of {width} used
      </summary>
      <div class="fields">
        {FIELD_NAMES.map((field) => (
          <Pick
            key={field}
            label={`${FIELDS[field].title} is in`}
            value={mapping[field] === null ? NONE : String(mapping[field])}
            options={[[NONE, "no column"], ...options]}
            onValue={(v) => props.onMapping({ ...mapping, [field]: v === NONE ? null : Number(v) })}
          />
        ))}
      </div>
    </details>
  );
};
