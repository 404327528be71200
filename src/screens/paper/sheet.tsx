import type { SheetRow } from "../../core/inputs/sheet";
import { once } from "../../core/lib/memo";
import { formatNumber } from "../../core/lib/number";
import { current, figures } from "../../document/store";
import { formatCount } from "../../text/words";
import { setupName } from "../shown-names";

// The first format costs a slow phone a tenth of a second: made when it is wanted, not when this is loaded.
const day = once(() => new Intl.DateTimeFormat("en-GB", { dateStyle: "long" }));

const SWAPPED = { "": "", "on purpose": "⇄ swapped pair", "by mistake": "⇄ REVERSED BY MISTAKE" } as const;

const Row = ({ row }: { row: SheetRow }) => (
  <tr class={row.on === false ? "off" : ""}>
    <th scope="row">{row.input}</th>
    <td>
      <span class="cut">
        {row.name === "" ? "free" : <b>{row.name}</b>} {row.over ? <b>BEYOND THE COUNT</b> : null}{" "}
        <b>{SWAPPED[row.swapped]}</b>
      </span>
    </td>
    <td>
      <span class="cut">{row.from}</span>
    </td>
    <td>{row.tap}</td>
    <td>{row.on === null ? "" : row.on ? "on" : <b>OFF</b>}</td>
    <td>{row.trim === null ? "" : formatNumber(row.trim, 1)}</td>
    <td>{row.name === "" ? null : <i class="box" />}</td>
    <td>{row.name === "" ? null : <i class="box" />}</td>
  </tr>
);

/** The patch on one printed page: seen on paper only. */
export const Sheet = ({ today }: { today: Date }) => {
  const { example, monitor } = current.value;
  const { rows, usage } = figures.value.patch;
  const over = usage.over.length === 0 ? "" : `, ${usage.over.length} beyond the count`;
  return (
    <article class="sheet" style={{ "--rows": String(rows.length) }}>
      <header>
        <h1 class="cut">{setupName(current.value)}</h1>
        <p>
          Patch sheet · {day().format(today)} · {usage.used.length} of{" "}
          {formatCount(monitor.inputCount, "input")} in use
          {over}
          {example ? <b class="invented">EXAMPLE · INVENTED DATA</b> : null}
        </p>
      </header>
      <table>
        <thead>
          <tr>
            <th scope="col">Input</th>
            <th scope="col">Name</th>
            <th scope="col">From</th>
            <th scope="col">Tap point</th>
            <th scope="col">On</th>
            <th scope="col">Trim, dB</th>
            <th scope="col">Console</th>
            <th scope="col">Stage</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.input} row={row} />
          ))}
        </tbody>
      </table>
      <footer>
        Console: patched as written. Stage: heard at the mixer in this input. ⇄ the sides of a pair lie in
        reverse order.
      </footer>
    </article>
  );
};
