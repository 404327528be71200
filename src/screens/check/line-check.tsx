import { clearTicks, tickInput } from "../../document/commands/check";
import { current, run } from "../../document/store";
import { formatRowName } from "../../text/sheet";
import { formatCount } from "../../text/words";
import { patchNow } from "../patch-figures";

/** Every patched input, ticked as OK or no signal: the plain line check. */
export const LineCheck = () => {
  const { lineCheck } = current.value;
  const rows = patchNow.value.rows.filter((r) => r.feed !== null);
  const open = rows.filter((r) => lineCheck[r.input - 1] === undefined).length;
  const missing = rows.filter((r) => lineCheck[r.input - 1] === false);
  if (rows.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="line-check">
      <h2 id="line-check">Line check</h2>
      <p class="soft" role="status">
        {open === 0 ? "Every input is checked" : `${formatCount(open, "input")} left to check`}
        {missing.length > 0
          ? `; no signal: ${missing.map((r) => formatRowName(current.value, r)).join(", ")}`
          : ""}
        .
      </p>
      <ol class="line-check">
        {rows.map((row) => {
          const at = row.input - 1;
          const said = lineCheck[at];
          const name = formatRowName(current.value, row);
          const tick = (heard: boolean) => run(tickInput(at, said === heard ? null : heard));
          return (
            <li class="row" key={row.input}>
              <span class="input-number">{row.input}</span>
              <span class="grow">
                {name}
                {row.feed?.input.on ? null : <span class="small soft"> off</span>}
              </span>
              <button
                type="button"
                aria-pressed={said === true}
                aria-label={`${name} OK`}
                onClick={() => tick(true)}
              >
                OK
              </button>
              <button
                type="button"
                aria-pressed={said === false}
                aria-label={`${name} no signal`}
                onClick={() => tick(false)}
              >
                No signal
              </button>
            </li>
          );
        })}
      </ol>
      {open < rows.length ? (
        <button type="button" onClick={() => run(clearTicks(rows.map((row) => row.input - 1)))}>
          Clear all ticks
        </button>
      ) : null}
    </section>
  );
};
