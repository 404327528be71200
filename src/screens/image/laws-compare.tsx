import { useSignal } from "@preact/signals";
import { formatNumber, formatSigned } from "../../core/lib/number";
import type { Db } from "../../core/model/units";
import { compareLaws } from "../../core/pan/compare";
import { LAWS } from "../../core/pan/laws";
import { BASE, CENTRE_DB, SIDE_DB } from "../../core/stereo/position";
import { current } from "../../document/store";
import { UNITY_NAMES } from "../../text/names";
import { Pick } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";
import { channelTitle } from "../shown-names";

const change = (value: Db): string => formatSigned(value, 1);

/** One channel's pan by every law: what moves if the console's law is another than believed. */
export const LawsCompare = () => {
  const { channels, desk: console } = current.value;
  const wanted = useSignal("");
  const single = channels.filter((s) => s.lines === 1);
  const channel = single.find((s) => s.id === wanted.value) ?? single.find((s) => s.pan !== 0) ?? single[0];
  if (!channel) return null;
  return (
    <Fold title="The same pans with every pan law">
      {() => (
        <>
          <Pick
            label="Channel"
            value={channel.id}
            options={single.map((s) => [s.id, channelTitle(s.id)] as const)}
            onValue={(id) => {
              wanted.value = id;
            }}
          />
          <Table
            caption="The same pan position with every law; changes against the law in use, dB"
            heads={["Law", "R\u00A0−\u00A0L", "Image moves", "L moves", "R moves", "Angle"]}
          >
            <tbody>
              {compareLaws(console, channel.pan).map((row) => (
                <tr key={`${row.law} ${row.reference}`}>
                  <th scope="row">
                    {LAWS[row.law].name}
                    <span class="small soft">
                      {" "}
                      unity {UNITY_NAMES[row.reference]}
                      {row.believed ? ", in use" : ""}
                    </span>
                  </th>
                  <td>{formatNumber(row.difference, 1)}</td>
                  <td>{change(row.imageMove)}</td>
                  <td>{change(row.levelMove[0])}</td>
                  <td>{change(row.levelMove[1])}</td>
                  <td>{formatNumber(row.angle, 1)}°</td>
                </tr>
              ))}
            </tbody>
          </Table>
          <Explain about="What these mean">
            <p>
              R − L: right over left, dB. With in-ear monitors under {CENTRE_DB} dB is the centre, and from{" "}
              {SIDE_DB} dB on it is hard left or right. Angle: in front of two loudspeakers at ±{BASE}°, by
              the tangent law; not for in-ear monitors.
            </p>
            <p>
              Source: Mills 1960 for the centre, a secondary text for the side, Pulkki 1997 for the angle.
            </p>
          </Explain>
        </>
      )}
    </Fold>
  );
};
