import { useComputed, useSignal } from "@preact/signals";
import type { NumberRule } from "../../core/lib/number";
import type { Db, Pan } from "../../core/model/units";
import { identifyLaw, type LawFit, type Reading, type ReadingPoint } from "../../core/pan/identify";
import { roundPan } from "../../core/pan/notation";
import { editDesk } from "../../document/commands/settings";
import { current } from "../../document/store";
import { describeIdentified, describeLawFit, formatLawFit } from "../../text/law-readings";
import { Pick } from "../../ui/choice";
import { NumberField } from "../../ui/number-field";
import { Sentences } from "../../ui/sentences";
import { Table } from "../../ui/table";
import { runWithWord } from "../act";
import { PanEntry } from "../pan-entry";
import { RULES } from "../rules";

/** More readings tell nothing more. */
const MOST = 5;
const METER: NumberRule = { name: "Meter step", min: 0.01, max: 3, unit: "dB" };

interface Row {
  readonly at: ReadingPoint;
  readonly level: Db | null;
}
const BEGUN: readonly Row[] = [
  { at: "before pan", level: null },
  { at: { pan: 0, side: "left" }, level: null },
  { at: { pan: -1, side: "left" }, level: null },
];

const ReadingFields = ({ row, number, onRow }: { row: Row; number: number; onRow: (row: Row) => void }) => {
  const { at, level } = row;
  return (
    <div class="fields">
      <Pick
        label={`Reading ${number}`}
        value={at === "before pan" ? "before" : at.side}
        options={[
          ["before", "Before the pan"],
          ["left", "L of the bus"],
          ["right", "R of the bus"],
        ]}
        onValue={(to) =>
          onRow({
            ...row,
            at: to === "before" ? "before pan" : { pan: at === "before pan" ? 0 : at.pan, side: to },
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
        rule={RULES.level}
        label={`Meter, reading ${number}`}
        value={level}
        onValue={(value) => onRow({ ...row, level: value })}
        onEmpty={() => onRow({ ...row, level: null })}
      />
    </div>
  );
};

/** Takes a law into the desk; its own centre drop, where it has one, to a tenth of a dB. */
const take = ({ law, reference, centre }: LawFit): void => {
  const drop = centre ? { centreDb: Math.round(5 * (centre.low + centre.high)) / 10 } : {};
  runWithWord(editDesk({ law, reference, ...drop }), "The plan now has this pan law");
};

/** Two to five meter readings of one steady channel, and the pan laws that they leave. */
export const LawFinder = () => {
  const rows = useSignal(BEGUN);
  const step = useSignal<Db>(0.1);
  const { desk } = current.value;
  const readings = useComputed(() =>
    rows.value.flatMap(({ at, level }): Reading[] =>
      level === null ? [] : [{ at, level, resolution: step.value }],
    ),
  ).value;
  const onStep = (pan: Pan): Pan => roundPan(pan, desk).pan;
  const found = identifyLaw(readings, onStep);
  const filled = rows.value.flatMap(({ level }, at) => (level === null ? [] : [at]));
  const said = { ...found, odd: found.odd === null ? null : (filled[found.odd] ?? null) };
  const change = (at: number, to: Row): void => {
    rows.value = rows.value.map((row, i) => (i === at ? to : row));
  };
  const { next } = found;
  return (
    <>
      <p>
        Send one steady tone to a stereo bus, fader and send at 0 dB, and type what the meters show. Before
        the pan: the channel’s own meter.
      </p>
      <NumberField
        rule={METER}
        value={step.value}
        onValue={(to) => {
          step.value = to;
        }}
      />
      {rows.value.map((row, at) => (
        <ReadingFields key={at} row={row} number={at + 1} onRow={(to) => change(at, to)} />
      ))}
      <div role="status">
        <Sentences says={describeIdentified(said, readings.length, desk)} look="notice" />
      </div>
      {rows.value.length < MOST ? (
        <button
          type="button"
          onClick={() => {
            rows.value = [...rows.value, { at: next ?? { pan: 0, side: "left" }, level: null }];
          }}
        >
          Add reading
        </button>
      ) : null}
      {readings.length < 2 ? null : (
        <Table caption="Pan laws, the likeliest first" heads={["Law", "Readings", ""]}>
          <tbody>
            {found.ranked.map((fit) => (
              <tr key={`${fit.law} ${fit.reference}`}>
                <th scope="row">{formatLawFit(fit)}</th>
                <td>{describeLawFit(fit)}</td>
                <td>
                  {fit.fits ? (
                    <button type="button" aria-label={`Use ${formatLawFit(fit)}`} onClick={() => take(fit)}>
                      Use
                    </button>
                  ) : null}
                </td>
              </tr>
            ))}
          </tbody>
        </Table>
      )}
    </>
  );
};
