import { computed, signal } from "@preact/signals";
import type { Db } from "../core/model/units";
import { identifyLaw } from "../core/pan/identify";
import { roundPan } from "../core/pan/notation";
import type { ReadingPoint } from "../core/pan/reading";
import { current } from "../document/store";
import { shelf } from "../shelf/here";
import { describeIdentified } from "../text/law-readings";
import { Pick } from "../ui/choice";
import { Fold } from "../ui/fold";
import { lazy } from "../ui/lazy";
import { NumberField } from "../ui/number-field";
import { Sentences } from "../ui/sentences";
import { PanEntry } from "./pan-entry";
import { RankedLaws } from "./ranked-laws";
import { RULES } from "./rules";

const LawByInput = lazy(async () => (await import("./hear/law-by-input")).LawByInput);

/** So many can be entered. A design choice: four, well chosen, tell what a meter can. */
const MOST = 8;

interface Row {
  readonly at: ReadingPoint;
  readonly level: Db | null;
}
interface Session {
  readonly step: Db;
  readonly rows: readonly Row[];
}
const BEGUN: Session = {
  step: 0.1,
  rows: [
    { at: "before pan", level: null },
    { at: { pan: 0, side: "left" }, level: null },
  ],
};

/** What was read, and for which setup: another one is of another desk. Kept while the fold is closed. */
const typed = signal<{ readonly of: string | null; readonly session: Session }>({ of: null, session: BEGUN });
const session = computed(() => (typed.value.of === shelf.openId.value ? typed.value.session : BEGUN));
const edit = (patch: Partial<Session>): void => {
  typed.value = { of: shelf.openId.peek(), session: { ...session.peek(), ...patch } };
};

/** What the entered readings leave, and what each is called on the screen. */
const found = computed(() => {
  const { rows, step } = session.value;
  const entered = rows.flatMap(({ at, level }, index) =>
    level === null ? [] : [{ number: index + 1, reading: { at, level, resolution: step } }],
  );
  return {
    numbers: entered.map(({ number }) => number),
    ...identifyLaw(
      entered.map(({ reading }) => reading),
      (pan) => roundPan(pan, current.value.desk).pan,
    ),
  };
});

const ReadingFields = ({ row, number, onRow }: { row: Row; number: number; onRow: (row: Row) => void }) => {
  const { at, level } = row;
  return (
    <div class="fields">
      <Pick
        label={`Reading ${number}`}
        value={at === "before pan" ? at : at.side}
        options={[
          ["before pan", "Before the pan"],
          ["left", "L of the bus"],
          ["right", "R of the bus"],
        ]}
        onValue={(to) =>
          onRow({
            ...row,
            at: to === "before pan" ? to : { pan: at === "before pan" ? 0 : at.pan, side: to },
          })
        }
      />
      {at === "before pan" ? null : (
        <PanEntry
          label={`Pan, reading ${number}`}
          value={at.pan}
          onValue={(pan) => onRow({ ...row, at: { ...at, pan } })}
          onDone={() => {}}
        />
      )}
      <NumberField
        rule={RULES.meter}
        label={`Meter, reading ${number}`}
        value={level}
        onValue={(value) => onRow({ ...row, level: value })}
        onEmpty={() => onRow({ ...row, level: null })}
      />
    </div>
  );
};

/** Meter readings of one steady channel, and the pan laws that they leave. */
export const LawFinder = () => {
  const { rows, step } = session.value;
  const { next, numbers } = found.value;
  return (
    <>
      <p>
        Send a steady tone to a stereo bus with fader and send at 0 dB, and enter what the meters show.
        “Before the pan” is the channel’s own meter.
      </p>
      <NumberField rule={RULES.meterStep} value={step} onValue={(to) => edit({ step: to })} />
      {rows.map((row, at) => (
        <ReadingFields
          key={at}
          row={row}
          number={at + 1}
          onRow={(to) => edit({ rows: rows.map((was, i) => (i === at ? to : was)) })}
        />
      ))}
      <div role="status">
        <Sentences says={describeIdentified(found.value, numbers, current.value.desk)} look="notice" />
      </div>
      {rows.length < MOST ? (
        <button
          type="button"
          onClick={() => edit({ rows: [...rows, { at: next ?? { pan: 0, side: "left" }, level: null }] })}
        >
          {next && numbers.length >= 2 ? "Add this reading" : "Add reading"}
        </button>
      ) : null}
      {numbers.length < 2 ? null : <RankedLaws ranked={found.value.ranked} />}
      <Fold title="Measure with an audio input" look="plain">
        {() => <LawByInput />}
      </Fold>
    </>
  );
};
