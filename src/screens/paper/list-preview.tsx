import { type ListChange, moves } from "../../core/inputs/list-changes";
import { isolated } from "../../core/lib/direction";
import type { PanNotation } from "../../core/pan/notation-styles";
import { columnLetters } from "../../shelf/csv-columns";
import type { CellFault } from "../../shelf/csv-row";
import { describeCellProblem } from "../../text/csv";
import { describeCounts, describeFieldChange, describeNew } from "../../text/list";
import { formatCount } from "../../text/words";
import { Portion } from "../../ui/portion";

const FAULTS_SHOWN = 20;

const What = ({ change, notation }: { change: ListChange; notation: PanNotation }) => {
  if (change.state === "new") return <>{describeNew(change.row, notation)}</>;
  if (change.state === "gone") return <>removed</>;
  return (
    <ul>
      {change.changes.map((c) => (
        <li key={c.field}>{describeFieldChange(c, notation)}</li>
      ))}
    </ul>
  );
};

/** What a list would change, channel by channel, before it is imported. */
export const Changes = (props: { changes: readonly ListChange[]; notation: PanNotation }) => {
  const changes = props.changes.filter(moves);
  return (
    <section class="stack" aria-label="What changes">
      <p>{describeCounts(props.changes)}</p>
      {changes.length > 0 ? (
        <Portion
          items={changes}
          each={(change) => (
            <li key={change.id} class="small">
              <b>{isolated(change.row.name)}</b> <What change={change} notation={props.notation} />
            </li>
          )}
          what="more"
        />
      ) : null}
    </section>
  );
};

const whereIs = ({ row, column }: CellFault): string =>
  column === null ? `Row ${row}` : `Row ${row}, column ${columnLetters(column)}`;

/** What is wrong, cell by cell; nothing is imported until it is corrected. */
export const Faults = ({ faults }: { faults: readonly CellFault[] }) => (
  <div class="notice bad stack" role="alert">
    <p>
      <b>{formatCount(faults.length, "cell")} cannot be read.</b> Correct{" "}
      {faults.length === 1 ? "it" : "them"} in the spreadsheet, or choose other columns. Nothing is imported
      until then.
    </p>
    <ul class="small">
      {faults
        .slice(0, FAULTS_SHOWN)
        .map((fault) => [whereIs(fault), describeCellProblem(fault.problem)] as const)
        .map(([where, says]) => (
          <li key={`${where} ${says}`}>
            <b>{where}.</b> {says}
          </li>
        ))}
    </ul>
    {faults.length > FAULTS_SHOWN ? <p class="small">And {faults.length - FAULTS_SHOWN} more.</p> : null}
  </div>
);
