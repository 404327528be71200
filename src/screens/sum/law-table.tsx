import { LAWS } from "../../core/laws";
import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import type { LawFigures } from "../../core/sum/lawfigures";
import { db } from "../../core/sum/say";
import { Explain } from "../../pieces/explain";
import { Fold } from "../../pieces/fold";
import { Table } from "../../pieces/table";
import { LawFields } from "../law-fields";
import { LawsHelp } from "./help";

const Row = ({ row }: { row: LawFigures }) => (
  <tr class={row.believed ? "in-force" : ""}>
    <th scope="row">
      {row.reference}
      {row.believed ? <span class="small soft"> in force</span> : null}
    </th>
    <td>{db(row.likely[0])}</td>
    <td>{db(row.likely[1])}</td>
    <td>{db(row.likelyMono)}</td>
    <td>{row.loss === null ? "–" : db(row.loss)}</td>
    <td>
      {db(row.headroom)} <span class="small soft">{row.lowest}</span>
    </td>
  </tr>
);

/** The same sum by every law: what the law costs, and which ceiling it would hit. */
export const LawTable = ({ sum, figures }: { sum: Sum; figures: SumFigures }) => {
  if (!sum.stereo) return null;
  return (
    <Fold title="The same sum by every pan law">
      {() => (
        <>
          <div class="fields">
            <LawFields label="Pan law, as the console is set" />
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
          <Explain about="What loss and room are">
            <LawsHelp />
          </Explain>
        </>
      )}
    </Fold>
  );
};
