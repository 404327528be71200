import { hearsFoh } from "../../core/model/kinds";
import "./line-check.css";
import type { SheetRow } from "../../core/inputs/sheet";
import { clearTicks, tickInput } from "../../document/commands/check";
import { startTrace } from "../../document/commands/trace";
import { current, run } from "../../document/store";
import { lineSubject } from "../../document/tick-log";
import { mixerName } from "../../text/names";
import { formatRowName } from "../../text/sheet";
import { describeSilent } from "../../text/ticks";
import { formatCount } from "../../text/words";
import { Pick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { HandOver } from "../helper/hand-over";
import { goTo } from "../route";
import { chosenListener } from "../state";
import { WhoTicked, wordsOn } from "../ticked";
import { stamp } from "../who";
import { WhoField } from "../who-field";
import { LineOut } from "./line-out";
import {
  checkAt,
  checkedAt,
  describeInside,
  linesToCheck,
  musicians,
  placeNow,
  SAID,
  saidNow,
  silentAt,
} from "./lines";

/** Leads on from an input without a signal, for whom the check is about; the audience has no monitor input. */
const traceInput = (index: number): void => {
  const chosen = checkedAt.value ?? chosenListener.value;
  const listener = chosen && hearsFoh(chosen) ? musicians.value[0] : chosen;
  if (!listener) return;
  run(startTrace(listener.id, { what: "input", input: index }));
  goTo("trace");
};

const Line = ({ row }: { row: SheetRow }) => {
  const place = placeNow(row);
  const said = saidNow(row);
  const name = formatRowName(current.value, row);
  const inside = describeInside(row);
  const silent = checkedAt.value ? "" : describeSilent(silentAt(row));
  return (
    <li class="row">
      <span class="input-number">{row.input}</span>
      <span class="grow">
        {name}
        {row.feed?.input.on ? null : <span class="small soft"> off</span>}
        {inside ? <span class="small soft inside">{inside}</span> : null}
        <WhoTicked words={wordsOn.value(lineSubject(current.value, place))} />
        {silent ? <span class="small soft who">{silent}</span> : null}
      </span>
      {SAID.map(([heard, word]) => (
        <button
          type="button"
          key={word}
          aria-pressed={said === heard}
          aria-label={`${name} ${word === "OK" ? word : word.toLowerCase()}`}
          onClick={() => run(tickInput(place.index, said === heard ? null : heard, stamp(), place.listener))}
        >
          {word}
        </button>
      ))}
      {said === false ? (
        <button
          type="button"
          class="trace"
          aria-label={`Trace ${name}`}
          onClick={() => traceInput(place.index)}
        >
          Trace
        </button>
      ) : null}
    </li>
  );
};

/** Every patched input, ticked as OK or no signal, with who said so and when. */
const LineList = () => {
  const rows = linesToCheck.value;
  const open = rows.filter((r) => saidNow(r) === undefined).length;
  const missing = rows.filter((r) => saidNow(r) === false);
  return (
    <>
      <Pick
        label="Checked at"
        value={checkedAt.value?.id ?? ""}
        options={[["", "the desk"], ...musicians.value.map((l) => [l.id, mixerName(l)] as const)]}
        onValue={(id) => checkAt(id === "" ? null : id)}
      />
      <p class="soft" role="status">
        {open === 0 ? "Every input is checked" : `${formatCount(open, "input")} left to check`}
        {missing.length > 0
          ? `; no signal: ${missing.map((r) => formatRowName(current.value, r)).join(", ")}`
          : ""}
        .
      </p>
      <ol class="line-check">
        {rows.map((row) => (
          <Line key={row.input} row={row} />
        ))}
      </ol>
    </>
  );
};

/** The line check by itself, for a helper. */
export const LinesToTick = () => (
  <>
    <h1>Line check</h1>
    <LineList />
  </>
);

/** The plain line check, its paper, and who ticks. */
export const LineCheck = () => {
  const rows = linesToCheck.value;
  if (rows.length === 0) return null;
  const isTicked = rows.some((r) => saidNow(r) !== undefined);
  return (
    <section class="stack" aria-labelledby="line-check">
      <h2 id="line-check">Line check</h2>
      <LineList />
      {isTicked ? (
        <button
          type="button"
          onClick={() =>
            run(
              clearTicks(
                rows.map((row) => row.input - 1),
                stamp(),
                checkedAt.value?.id ?? null,
              ),
            )
          }
        >
          Clear all ticks
        </button>
      ) : null}
      <Fold title="Paper, names">
        {() => (
          <>
            <LineOut />
            <WhoField />
          </>
        )}
      </Fold>
      <Fold title="Hand over to a helper’s phone">{() => <HandOver />}</Fold>
    </section>
  );
};
