import { computed } from "@preact/signals";
import type { SheetRow } from "../../core/inputs/sheet";
import { once } from "../../core/lib/memo";
import { current } from "../../document/store";
import { type BusNote, describeBuses, describeMixers } from "../../text/bus-sheet";
import { SHEET_COLUMNS, type SheetColumn } from "../../text/sheet";
import { formatCount } from "../../text/words";
import { patchNow } from "../patch-figures";
import { setupName } from "../shown-names";

// The first format costs a slow phone a tenth of a second: made when it is wanted, not when this is loaded.
const day = once(() => new Intl.DateTimeFormat("en-GB", { dateStyle: "long" }));

const columns: readonly [string, SheetColumn][] = Object.entries(SHEET_COLUMNS).slice(1);

/** Columns whose text takes up to two lines of a row. */
const IN_TWO_LINES: readonly string[] = ["name", "from", "port", "swapped"];

const Cell = ({ name, text, row }: { name: string; text: string; row: SheetRow }) => {
  const shown = name === "name" && !row.feed ? "free" : text;
  const loud = (name === "name" && row.feed) || name === "swapped" || (name === "on" && text === "off");
  return (
    <td class={`column-${name}`}>
      <span class={IN_TWO_LINES.includes(name) ? "cut" : ""}>
        {loud ? <b>{name === "on" ? shown.toUpperCase() : shown}</b> : shown}
        {name === "name" && row.over ? <b> BEYOND THE LAST INPUT</b> : null}
      </span>
    </td>
  );
};

const Box = ({ row }: { row: SheetRow }) => (
  <td class="column-tick">{row.feed ? <i class="box" /> : null}</td>
);

const Row = ({ row }: { row: SheetRow }) => (
  <tr class={row.feed?.on === false ? "off" : ""}>
    <th scope="row" class="column-input">
      {row.input}
    </th>
    {columns.map(([name, { cell }]) => (
      <Cell key={name} name={name} text={cell(row, current.value)} row={row} />
    ))}
    <Box row={row} />
    <Box row={row} />
  </tr>
);

/** Height of a line under the table, and how much of it is written at least, in its type. */
const LINE_MM = 3.6;
const LINE_LETTERS = 105;
/** What the rows of the table share on the shorter page, Letter, and the least that a row takes. */
const ROWS_MM = 216;
const ROW_MM = 3.4;

interface Notes {
  readonly buses: readonly BusNote[];
  readonly mixers: readonly string[];
}

/** Height of what stands under the table. */
const heightOf = ({ buses, mixers }: Notes): number => {
  const texts = [...buses.map(({ title, says }) => `${title}. ${says}`), ...mixers];
  const lines = texts.reduce((sum, text) => sum + Math.ceil(text.length / LINE_LETTERS), 0);
  // Two headings, and the room around them.
  return (lines + 4) * LINE_MM;
};

const notes = computed<Notes>(() => ({
  buses: describeBuses(current.value),
  mixers: describeMixers(current.value),
}));
const height = computed(() => heightOf(notes.value));

/** Whether the buses and mixers fit under the table on one page. */
export const fitsOnePage = computed(() => ROWS_MM - height.value >= patchNow.value.rows.length * ROW_MM);

/** What is in each bus, and what is set at the musicians’ own mixers. */
const Below = ({ buses, mixers }: Notes) => (
  <>
    {buses.length === 0 ? null : (
      <section>
        <h2>In the buses, sends in dB</h2>
        {buses.map(({ bus, title, says }) => (
          <p key={bus}>
            <b>{title}.</b> {says}
          </p>
        ))}
      </section>
    )}
    {mixers.length === 0 ? null : (
      <section>
        <h2>At the musicians’ own mixers</h2>
        {mixers.map((says) => (
          <p key={says}>{says}</p>
        ))}
      </section>
    )}
  </>
);

/** The patch for paper, on one page where it fits: seen on paper only. */
export const Sheet = ({ today }: { today: Date }) => {
  const { example, monitor } = current.value;
  const { rows, usage } = patchNow.value;
  const over = usage.over.length === 0 ? "" : `, ${usage.over.length} beyond the last`;
  const isOne = fitsOnePage.value;
  return (
    <article
      class={isOne ? "sheet" : "sheet two-pages"}
      style={{ "--rows": String(rows.length), "--below": isOne ? `${height.value}mm` : "0mm" }}
    >
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
            {Object.entries(SHEET_COLUMNS).map(([name, { head }]) => (
              <th scope="col" key={name} class={`column-${name}`}>
                {head}
              </th>
            ))}
            <th scope="col" class="column-tick">
              Desk
            </th>
            <th scope="col" class="column-tick">
              Stage
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.input} row={row} />
          ))}
        </tbody>
      </table>
      <Below {...notes.value} />
      <footer>Desk: patched as written. Stage: heard at the mixer on this input.</footer>
    </article>
  );
};
