import { LAWS } from "../../core/laws";
import type { LawId, Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import type { LawFigures } from "../../core/sum/lawrows";
import { editConsole } from "../../document/commands/settings";
import { current, run } from "../../document/store";
import { Choice, Pick } from "../../pieces/choice";
import { Table } from "../../pieces/table";
import { db } from "./words";

const Row = ({ row }: { row: LawFigures }) => (
  <tr class={row.believed ? "in-force" : ""}>
    <th scope="row">
      {row.reference}
      {row.believed ? <span class="small soft"> in force</span> : null}
    </th>
    <td>{db(row.likely[0])}</td>
    <td>{db(row.likely[1])}</td>
    <td>{db(row.mono.likely)}</td>
    <td>{row.loss === null ? "–" : db(row.loss)}</td>
    <td>
      {db(row.headroom)} <span class="small soft">{row.lowest}</span>
    </td>
  </tr>
);

/** The same sum by every law: what the law costs, and which ceiling it would hit. */
export const LawTable = ({ sum, figures }: { sum: Sum; figures: SumFigures }) => {
  if (!sum.stereo) return null;
  const { law, reference } = current.value.console;
  return (
    <details class="card">
      <summary>The same sum by every pan law</summary>
      <div class="stack">
        <div class="fields">
          <Pick<LawId>
            label="Pan law, as the console is set"
            value={law}
            options={Object.values(LAWS).map((l) => [l.id, l.name] as const)}
            onValue={(v) => run(editConsole({ law: v }))}
          />
          <Choice
            label="Which end is 0 dB"
            value={reference}
            options={[
              ["sides", "Sides"],
              ["centre", "Centre"],
            ]}
            onValue={(v) => run(editConsole({ reference: v }))}
          />
        </div>
        <Table
          kind="laws two-lines"
          caption="Likely peaks dBFS; loss and headroom dB, with the ceiling that decides"
          heads={["0 dB at", "Left", "Right", "Mono", "Loss", "Room"]}
        >
          {Object.values(LAWS).map(({ id, name }) => (
            <tbody key={id}>
              <tr>
                <th scope="rowgroup" colSpan={6}>
                  {name}
                </th>
              </tr>
              {figures.laws
                .filter((row) => row.law === id)
                .map((row) => (
                  <Row key={row.reference} row={row} />
                ))}
            </tbody>
          ))}
        </Table>
      </div>
    </details>
  );
};
