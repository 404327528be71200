import type { SheetRow } from "../../core/inputs/sheet";
import { once } from "../../core/lib/memo";
import { current } from "../../document/store";
import { SHEET_COLUMNS, type SheetColumn } from "../../text/sheet";
import { formatCount } from "../../text/words";
import { patchNow } from "../patch-figures";
import { setupName } from "../shown-names";

// The first format costs a slow phone a tenth of a second: made when it is wanted, not when this is loaded.
const day = once(() => new Intl.DateTimeFormat("en-GB", { dateStyle: "long" }));

const columns: readonly [string, SheetColumn][] = Object.entries(SHEET_COLUMNS).slice(1);

const Cell = ({ name, text, row }: { name: string; text: string; row: SheetRow }) => {
  const shown = name === "name" && !row.feed ? "free" : text;
  const loud = (name === "name" && row.feed) || name === "swapped" || (name === "on" && text === "off");
  return (
    <td>
      <span class={name === "name" || name === "from" ? "cut" : ""}>
        {loud ? <b>{name === "on" ? shown.toUpperCase() : shown}</b> : shown}
        {name === "name" && row.over ? <b> BEYOND THE LAST INPUT</b> : null}
      </span>
    </td>
  );
};

const Row = ({ row }: { row: SheetRow }) => (
  <tr class={row.feed?.on === false ? "off" : ""}>
    <th scope="row">{row.input}</th>
    {columns.map(([name, { cell }]) => (
      <Cell key={name} name={name} text={cell(row, current.value)} row={row} />
    ))}
    <td>{row.feed ? <i class="box" /> : null}</td>
    <td>{row.feed ? <i class="box" /> : null}</td>
  </tr>
);

/** The patch on one printed page: seen on paper only. */
export const Sheet = ({ today }: { today: Date }) => {
  const { example, monitor } = current.value;
  const { rows, usage } = patchNow.value;
  const over = usage.over.length === 0 ? "" : `, ${usage.over.length} beyond the last`;
  return (
    <article class="sheet" style={{ "--rows": String(rows.length) }}>
      <header>
        <h1 class="cut">{setupName(current.value)}</h1>
        <p>
          Patch sheet · {day().format(today)} · {usage.used.length} of{" "}
          {formatCount(monitor.inputCount, "input")} used
          {over}
          {example ? <b class="invented">EXAMPLE · INVENTED DATA</b> : null}
        </p>
      </header>
      <table>
        <thead>
          <tr>
            {Object.values(SHEET_COLUMNS).map(({ head }) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
            <th scope="col">Desk</th>
            <th scope="col">Stage</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.input} row={row} />
          ))}
        </tbody>
      </table>
      <footer>Desk: patched as written. Stage: heard at the mixer in this input.</footer>
    </article>
  );
};
