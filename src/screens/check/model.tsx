import { Table } from "../../ui/table";
import "./check.css";
import { LAPSE_RATES, OFFSETS, THRESHOLDS } from "../../core/check/people";
import { RESPONSE_MODEL } from "../../core/check/responses";
import { formatNumber, formatPercent } from "../../core/lib/number";

const list = (values: readonly number[]): string => values.map((value) => formatNumber(value, 0)).join(", ");

/** How people are taken to answer: every figure with its reason. */
export const Model = () => {
  const { blurDb, nothingFromDb, nothingToDb } = RESPONSE_MODEL;
  return (
    <Table kind="model" caption="What may differ from listener to listener" heads={["What", "From", "Why"]}>
      <tbody>
        <tr>
          <th scope="row">Calls it the middle below</th>
          <td>{list(THRESHOLDS.map(([value]) => value))} dB</td>
          <td>design choice: a practised ear to one that calls only a hard pan a side</td>
        </tr>
        <tr>
          <th scope="row">Midline off by</th>
          <td>{list(OFFSETS.map(([value]) => value))} dB</td>
          <td>common practice, no source: a weaker ear, or one earpiece that seals better</td>
        </tr>
        <tr>
          <th scope="row">“Wrong button” rate</th>
          <td>{LAPSE_RATES.map(([value]) => formatPercent(value)).join(", ")}</td>
          <td>design choice</td>
        </tr>
        <tr>
          <th scope="row">Blur</th>
          <td>{formatNumber(blurDb, 0)} dB</td>
          <td>design choice: standard deviation from hit to hit, the same for all</td>
        </tr>
        <tr>
          <th scope="row">“Nothing”</th>
          <td>
            {formatNumber(nothingFromDb, 0)}–{formatNumber(nothingToDb, 0)} dB
          </td>
          <td>
            design choice: this far below the plan it is more and more often masked by the acoustic drum
          </td>
        </tr>
      </tbody>
    </Table>
  );
};
