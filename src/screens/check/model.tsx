import { Table } from "../../pieces/table";
import "./check.css";
import { ANSWER_MODEL, type Grade } from "../../core/check/answers";
import { printNumber } from "../../core/number";

const percent = (share: number): string => `${printNumber(100 * share, 0)} %`;

const Rows = ({ grades }: { grades: readonly Grade[] }) =>
  grades.map(({ at, share, why }) => (
    <tr key={at}>
      <th scope="row">{printNumber(at, 0)} dB</th>
      <td>{percent(share)}</td>
      <td class="why">{why}</td>
    </tr>
  ));

const Heads = ({ at, share }: { at: string; share: string }) => (
  <thead>
    <tr>
      <th scope="col">{at}</th>
      <th scope="col">{share}</th>
      <th scope="col" class="why">
        Why
      </th>
    </tr>
  </thead>
);

/** How people are taken to answer: every figure with its reason. */
export const Model = () => (
  <>
    <Table kind="model" caption="How often a piece is heard at a side, by the difference between the ears">
      <Heads at="Apart" share="At a side" />
      <tbody>
        <Rows grades={ANSWER_MODEL.side} />
      </tbody>
    </Table>
    <Table
      kind="model"
      caption="How often nothing is heard, by how far the louder ear is below what was planned"
    >
      <Heads at="Below" share="Nothing" />
      <tbody>
        <Rows grades={ANSWER_MODEL.nothing} />
      </tbody>
    </Table>
    <p>
      The rest is heard in the middle, or cannot be placed where the ears get opposite polarity. Slips:{" "}
      {percent(ANSWER_MODEL.slip.share)}, {ANSWER_MODEL.slip.why}.
    </p>
  </>
);
