import { printPan } from "../../core/pannotation";
import type { ListRow } from "../../core/patch/list";
import { counted } from "../../core/words";
import { current } from "../../document/store";
import { Table } from "../../pieces/table";
import type { CellFault } from "../../shelf/csv-list";
import { columnLetters } from "./column-letters";

/** So many are shown; more are counted. A design choice: a phone's height. */
const SHOWN = 8;
const FAULTS_SHOWN = 20;

const slots = (row: ListRow): string => row.feeds.map((f) => f.slot).join(", ") || "–";

/** The first sources of a list as they were understood. */
export const RowsPreview = ({ rows }: { rows: readonly ListRow[] }) => (
  <Table
    kind="table-in"
    caption={
      <>
        {rows.length > SHOWN
          ? `The first ${SHOWN} of ${rows.length} sources`
          : counted(rows.length, "source")}
        , as understood
      </>
    }
    heads={["Name", "Kind", "Pan", "Slot"]}
  >
    <tbody>
      {rows.slice(0, SHOWN).map((row, at) => (
        <tr key={`${at} ${row.name}`}>
          <th scope="row">{row.name}</th>
          <td>{row.channels === 2 ? `${row.kind}, stereo` : row.kind}</td>
          <td>{printPan(row.pan, current.value.console)}</td>
          <td>{slots(row)}</td>
        </tr>
      ))}
    </tbody>
  </Table>
);

const whereIs = ({ row, column }: CellFault): string =>
  column === null ? `Row ${row}` : `Row ${row}, column ${columnLetters(column)}`;

/** What is wrong, cell by cell; nothing is taken in until it is put right. */
export const Faults = ({ faults }: { faults: readonly CellFault[] }) => (
  <div class="notice bad stack" role="alert">
    <p>
      <b>{counted(faults.length, "cell")} cannot be read.</b> Mend {faults.length === 1 ? "it" : "them"} in
      the spreadsheet, or choose other columns. Nothing is taken in half.
    </p>
    <ul class="small">
      {faults.slice(0, FAULTS_SHOWN).map((fault) => (
        <li key={`${fault.row} ${fault.column} ${fault.says}`}>
          <b>{whereIs(fault)}.</b> {fault.says}
        </li>
      ))}
    </ul>
    {faults.length > FAULTS_SHOWN ? <p class="small">And {faults.length - FAULTS_SHOWN} more.</p> : null}
  </div>
);
