import type { Agreement } from "../../core/agreement";
import { called } from "../../core/called";
import { levelOf } from "../../core/decibels";
import { angleSaid, differenceSaid, placeSaid } from "../../core/heardsaid";
import type { Image } from "../../core/image";
import { printNumber } from "../../core/number";
import { BASE } from "../../core/position";
import type { Listener } from "../../core/setup";
import { Table } from "../../pieces/table";
import { sourceName } from "../names";

const WORD: { readonly [agreement in Agreement]: string } = {
  right: "correct",
  wrong: "reversed",
  flat: "flat",
  unplaceable: "no side",
};

const level = (gain: number): string => (gain === 0 ? "silent" : printNumber(levelOf(gain), 1));

const HEADS = ["Source", "Stands", "Heard", "L dB", "R dB", "R − L dB", "Place"];

/** The thread drawing as a table: for screen readers, for print, and for whoever wants the numbers. */
export const ImageTable = ({ image, listener }: { image: Image; listener: Listener }) => {
  const house = image.hears === "house";
  return (
    <Table
      caption={`Each source as it reaches ${called(listener)}`}
      heads={house ? [...HEADS, `Angle, loudspeakers at ±${BASE}°`] : HEADS}
    >
      <tbody>
        {image.rows.map((row) => (
          <tr key={row.source}>
            <th scope="row">
              {sourceName(row.source)}
              <span class={`small ${row.agreement === "wrong" ? "bad" : "soft"}`}>
                {" "}
                {WORD[row.agreement]}
              </span>
              {row.sidesLost ? <span class="small bad"> · its sides are lost</span> : null}
            </th>
            <td>{row.stands ?? "–"}</td>
            <td>{row.heard ?? "silent"}</td>
            <td>{level(row.legs[0])}</td>
            <td>{level(row.legs[1])}</td>
            <td>{differenceSaid(row)}</td>
            <td>{placeSaid(image.hears, row)}</td>
            {house ? <td>{angleSaid(row)}</td> : null}
          </tr>
        ))}
      </tbody>
    </Table>
  );
};
