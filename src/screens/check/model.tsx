import { Table } from "../../ui/table";
import "./check.css";
import { ANSWER_MODEL, type Grade } from "../../core/check/answers";
import { formatNumber, formatPercent } from "../../core/lib/number";

const Rows = ({ grades }: { grades: readonly Grade[] }) =>
  grades.map(({ at, share, why }) => (
    <tr key={at}>
      <th scope="row">{formatNumber(at, 0)} dB</th>
      <td>{formatPercent(share)}</td>
      <td>{why}</td>
    </tr>
  ));

/** How people are taken to answer: every figure with its reason. */
export const Model = () => (
  <>
    <Table
      kind="model"
      caption="How often a piece is heard at a side, by the difference between the ears"
      heads={["Apart", "At a side", "Why"]}
    >
      <tbody>
        <Rows grades={ANSWER_MODEL.side} />
      </tbody>
    </Table>
    <Table
      kind="model"
      caption="How often nothing is heard, by how far the louder ear is below what was planned"
      heads={["Below", "Nothing", "Why"]}
    >
      <tbody>
        <Rows grades={ANSWER_MODEL.nothing} />
      </tbody>
    </Table>
    <p>
      The rest is heard in the middle, or cannot be placed where the ears get opposite polarity. Slips:{" "}
      {formatPercent(ANSWER_MODEL.slip.share)}, {ANSWER_MODEL.slip.why}.
    </p>
  </>
);
