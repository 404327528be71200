import { LAWS } from "../../core/laws";
import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import { editConsole } from "../../document/commands/settings";
import { current, run } from "../../document/store";
import { Choice } from "../../pieces/choice";
import { CEILING, db } from "./words";

/** The same sum by every law: what the law costs, and which ceiling it would hit. */
export const LawTable = ({ sum, figures }: { sum: Sum; figures: SumFigures }) => {
  if (!sum.stereo) return null;
  const { reference } = current.value.console;
  return (
    <details class="card">
      <summary>The same sum by every pan law</summary>
      <div class="stack">
        <Choice
          label="Which end is 0 dB (the console’s setting)"
          value={reference}
          options={[
            ["sides", "Sides"],
            ["centre", "Centre"],
          ]}
          onValue={(v) => run(editConsole({ reference: v }))}
        />
        <div class="scroll-x">
          <table>
            <caption>Likely peaks dBFS; loss and headroom dB</caption>
            <thead>
              <tr>
                <th scope="col">Law</th>
                <th scope="col">Left</th>
                <th scope="col">Right</th>
                <th scope="col">Mono</th>
                <th scope="col">Loss</th>
                <th scope="col">Headroom</th>
              </tr>
            </thead>
            <tbody>
              {figures.laws.map((row) => (
                <tr key={`${row.law} ${row.reference}`} class={row.believed ? "in-force" : ""}>
                  <th scope="row">
                    {LAWS[row.law].name}
                    <span class="small soft">
                      {" "}
                      {row.reference} 0 dB{row.believed ? ", in force" : ""}
                    </span>
                  </th>
                  <td>{db(row.likely[0])}</td>
                  <td>{db(row.likely[1])}</td>
                  <td>{db(row.mono.likely)}</td>
                  <td>{row.loss === null ? "–" : db(row.loss)}</td>
                  <td>
                    {db(row.headroom)} <span class="small soft">{CEILING[row.lowest]}</span>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </div>
    </details>
  );
};
