import { levelOf } from "../../core/level/decibels";
import { formatNumber } from "../../core/lib/number";
import type { Listener } from "../../core/model/setup";
import type { Image } from "../../core/stereo/image";
import { BASE } from "../../core/stereo/position";
import {
  formatAngle,
  formatDifference,
  formatPlace,
  formatSideCell,
  PLACEMENT_NAMES,
} from "../../text/image";
import { listenerName } from "../../text/names";
import { useFirstRows } from "../../ui/first-rows";
import { Table } from "../../ui/table";
import { channelTitle } from "../shown-names";

const level = (gain: number): string => (gain === 0 ? "silent" : formatNumber(levelOf(gain), 1));

const HEADS = ["Channel", "Stands", "Heard", "L dB", "R dB", "R − L dB", "Place"];

/** The thread drawing as a table: for screen readers, for print, and for whoever wants the numbers. */
export const ImageTable = ({ image, listener }: { image: Image; listener: Listener }) => {
  const foh = image.hears === "foh";
  const { rows, more } = useFirstRows(image.rows, "channels");
  const table = (
    <Table
      caption={`Each channel as it reaches ${listenerName(listener)}`}
      heads={foh ? [...HEADS, `Angle, loudspeakers at ±${BASE}°`] : HEADS}
    >
      <tbody>
        {rows.map((row) => (
          <tr key={row.channel}>
            <th scope="row">
              {channelTitle(row.channel)}
              <span class={`small ${row.placement === "wrong" ? "bad" : "soft"}`}>
                {" "}
                {PLACEMENT_NAMES[row.placement]}
              </span>
              {row.sidesLost ? <span class="small bad"> · L/R lost</span> : null}
            </th>
            <td>{formatSideCell(row.stands, "–")}</td>
            <td>{formatSideCell(row.heard, "silent")}</td>
            <td>{level(row.sides[0])}</td>
            <td>{level(row.sides[1])}</td>
            <td>{formatDifference(row)}</td>
            <td>{formatPlace(image.hears, row)}</td>
            {foh ? <td>{formatAngle(row)}</td> : null}
          </tr>
        ))}
      </tbody>
    </Table>
  );
  if (!more) return table;
  return (
    <div class="stack">
      {table}
      {more}
    </div>
  );
};
