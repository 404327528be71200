import { clearTicks, tickInput } from "../../document/commands/check";
import { startTrace } from "../../document/commands/trace";
import { current, run } from "../../document/store";
import { formatRowName } from "../../text/sheet";
import { formatCount } from "../../text/words";
import { patchNow } from "../patch-figures";
import { goTo } from "../route";
import { chosenListener } from "../state";
import { stamp } from "../who";

/** Leads on from an input without a signal, for whom the check is about; the audience has no monitor input. */
const traceInput = (index: number): void => {
  const { listeners } = current.value;
  const chosen = chosenListener.value;
  const listener = chosen?.kind === "audience" ? listeners.find((l) => l.kind !== "audience") : chosen;
  if (!listener) return;
  run(startTrace(listener.id, { what: "input", input: index }));
  goTo("trace");
};

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
          const tick = (heard: boolean) => run(tickInput(at, said === heard ? null : heard, stamp()));
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
              {said === false ? (
                <button
                  type="button"
                  class="trace"
                  aria-label={`Trace ${name}`}
                  onClick={() => traceInput(at)}
                >
                  Trace
                </button>
              ) : null}
            </li>
          );
        })}
      </ol>
      {open < rows.length ? (
        <button
          type="button"
          onClick={() =>
            run(
              clearTicks(
                rows.map((row) => row.input - 1),
                stamp(),
              ),
            )
          }
        >
          Clear all ticks
        </button>
      ) : null}
    </section>
  );
};
