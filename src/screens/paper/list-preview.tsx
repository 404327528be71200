import type { ListRow } from "../../core/inputs/list";
import { formatPan } from "../../core/pan/notation";
import { current } from "../../document/store";
import type { CellFault } from "../../shelf/csv-list";
import { formatCount } from "../../text/words";
import { Table } from "../../ui/table";
import { columnLetters } from "./column-letters";

/** So many are shown; more are counted. A design choice: a phone's height. */
const SHOWN = 8;
const FAULTS_SHOWN = 20;

const inputs = (row: ListRow): string => row.feeds.map((f) => f.input).join(", ") || "–";

/** The first channels of a list as they were understood. */
export const RowsPreview = ({ rows }: { rows: readonly ListRow[] }) => (
  <Table
    kind="table-in"
    caption={
      <>
        {rows.length > SHOWN
          ? `The first ${SHOWN} of ${rows.length} channels`
          : formatCount(rows.length, "channel")}
        , as understood
      </>
    }
    heads={["Name", "Kind", "Pan", "Slot"]}
  >
    <tbody>
      {rows.slice(0, SHOWN).map((row, at) => (
        <tr key={`${at} ${row.name}`}>
          <th scope="row">{row.name}</th>
          <td>{row.lines === 2 ? `${row.kind}, stereo` : row.kind}</td>
          <td>{formatPan(row.pan, current.value.desk)}</td>
          <td>{inputs(row)}</td>
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
      <b>{formatCount(faults.length, "cell")} cannot be read.</b> Mend {faults.length === 1 ? "it" : "them"}{" "}
      in the spreadsheet, or choose other columns. Nothing is taken in half.
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
