import { Table } from "./table";

/** One row of a drawing of shares. */
export interface Bar {
  readonly id: string;
  readonly name: string;
  /** Lengths, 0…1: one or two, drawn under each other. */
  readonly shares: readonly number[];
  /** What the lengths say, as text. */
  readonly texts: readonly string[];
  /** The one to look at. */
  readonly marked?: boolean;
}

/** Shares as lengths beside their names: a table that draws itself, so it needs no second one. */
export const Bars = (props: {
  caption: string;
  heads: readonly string[];
  bars: readonly Bar[];
  /** What is said of the marked one. */
  mark: string;
}) => (
  <Table kind="bars" caption={props.caption} heads={props.heads}>
    <tbody>
      {props.bars.map((bar) => (
        <tr key={bar.id} class={bar.marked ? "marked" : ""}>
          <th scope="row">
            {bar.name}
            {bar.marked ? <span class="small"> · {props.mark}</span> : null}
          </th>
          {bar.shares.map((share, at) => (
            <td key={at}>
              {bar.texts[at]}
              <i style={{ width: `${(100 * share).toFixed(1)}%` }} aria-hidden="true" />
            </td>
          ))}
        </tr>
      ))}
    </tbody>
  </Table>
);
