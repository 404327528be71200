import { useSignal } from "@preact/signals";
import { acrossLaws } from "../../core/acrosslaws";
import { LAWS } from "../../core/laws";
import { printNumber, printSigned } from "../../core/number";
import { BASE, MIDDLE_DB, SIDE_DB } from "../../core/position";
import type { Db } from "../../core/units";
import { current } from "../../document/store";
import { Pick } from "../../pieces/choice";
import { Explain } from "../../pieces/explain";
import { Fold } from "../../pieces/fold";
import { Table } from "../../pieces/table";
import { sourceName } from "../names";

const change = (value: Db): string => printSigned(value, 1);

/** One source's pan by every law: what moves if the console's law is another than believed. */
export const LawsCompare = () => {
  const { sources, console } = current.value;
  const wanted = useSignal("");
  const single = sources.filter((s) => s.channels === 1);
  const source = single.find((s) => s.id === wanted.value) ?? single.find((s) => s.pan !== 0) ?? single[0];
  if (!source) return null;
  return (
    <Fold title="If the console’s pan law is another">
      {() => (
        <>
          <Pick
            label="Source"
            value={source.id}
            options={single.map((s) => [s.id, sourceName(s.id)] as const)}
            onValue={(id) => {
              wanted.value = id;
            }}
          />
          <Table
            caption="The same knob position by every law; changes against the law in force, dB"
            heads={["Law", "R\u00A0−\u00A0L", "Image moves", "L moves", "R moves", "Angle"]}
          >
            <tbody>
              {acrossLaws(console, source.pan).map((row) => (
                <tr key={`${row.law} ${row.reference}`}>
                  <th scope="row">
                    {LAWS[row.law].name}
                    <span class="small soft">
                      {" "}
                      {row.reference} 0 dB{row.believed ? ", in force" : ""}
                    </span>
                  </th>
                  <td>{printNumber(row.difference, 1)}</td>
                  <td>{change(row.imageMove)}</td>
                  <td>{change(row.levelMove[0])}</td>
                  <td>{change(row.levelMove[1])}</td>
                  <td>{printNumber(row.angle, 1)}°</td>
                </tr>
              ))}
            </tbody>
          </Table>
          <Explain about="What these mean">
            <p>
              R − L: right over left, dB. In ear-worn monitors under {MIDDLE_DB} dB is the middle, and from{" "}
              {SIDE_DB} dB on it is fully at one side. Angle: before two loudspeakers at ±{BASE}°, by the
              tangent law; it does not hold for ear-worn monitors.
            </p>
            <p>
              Source: Mills 1960 for the middle, a secondary text for the side, Pulkki 1997 for the angle.
            </p>
          </Explain>
        </>
      )}
    </Fold>
  );
};
