import type { LawFigures } from "../../core/headroom/by-law";
import type { BusFigures } from "../../core/headroom/figures";
import type { Bus } from "../../core/model/setup";
import { LAWS } from "../../core/pan/laws";
import { formatDb } from "../../text/headroom";
import { UNITY_NAMES } from "../../text/names";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";
import { FindLaw, LawFields } from "../law-fields";
import { LawsHelp } from "./help";

const Row = ({ row }: { row: LawFigures }) => (
  <tr class={row.believed ? "in-force" : ""}>
    <th scope="row">
      {UNITY_NAMES[row.reference]}
      {row.believed ? <span class="small soft"> in use</span> : null}
    </th>
    <td>{formatDb(row.likely[0])}</td>
    <td>{formatDb(row.likely[1])}</td>
    <td>{formatDb(row.likelyMono)}</td>
    <td>{row.loss === null ? "–" : formatDb(row.loss)}</td>
    <td>
      {formatDb(row.headroom)} <span class="small soft">{row.lowest}</span>
    </td>
  </tr>
);

/** The same bus by every law: what the law costs, and which ceiling it would hit. */
export const LawTable = ({ bus, figures }: { bus: Bus; figures: BusFigures }) => {
  if (!bus.stereo) return null;
  return (
    <Fold title="The same bus with every pan law">
      {() => (
        <>
          <div class="fields">
            <LawFields label="Pan law, as set at the desk" />
          </div>
          <FindLaw />
          <Table
            kind="laws two-lines"
            caption="Likely peaks dBFS; loss and headroom dB, with the limiting stage"
            heads={["Unity", "L", "R", "Mono", "Loss", "Headroom"]}
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
          <Explain about="What loss and headroom are">
            <LawsHelp />
          </Explain>
        </>
      )}
    </Fold>
  );
};
