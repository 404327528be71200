import { type Allowed, EARPHONE_ERROR, type EarphoneFigures, EU_VALUES } from "../../core/headroom/earphone";
import { formatNumber } from "../../core/lib/number";
import type { Earphone } from "../../core/model/setup";
import { editEarphone } from "../../document/commands/settings";
import { current, endVisit, figures, run } from "../../document/store";
import { EXPOSURE_RULES, EXPOSURE_VALUES } from "../../text/exposure";
import { formatDb } from "../../text/headroom";
import { Choice, Tick } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { NumberField } from "../../ui/number-field";
import { Table } from "../../ui/table";
import { typing } from "../act";
import { RULES } from "../rules";
import { EarHelp } from "./help";
import { time } from "./time";

type Figure = Exclude<keyof Earphone, "unit">;

const FIELDS: readonly (readonly [field: Figure, label: string, rule: keyof typeof RULES])[] = [
  ["impedance", "Impedance of the earphone", "impedance"],
  ["drive", "Amplifier output without load", "drive"],
  ["sourceImpedance", "Output impedance of the amplifier", "sourceImpedance"],
  ["isolation", "Isolation of the earpiece", "isolation"],
  ["stage", "Level on stage", "stage"],
];

const Rule = ({ allowed }: { allowed: Allowed }) => (
  <tr>
    <th scope="row">{EXPOSURE_RULES[allowed.rule.id]}</th>
    <td>
      {time(allowed.time)}
      <span class="small soft">
        {time(allowed.shortest)} – {time(allowed.longest)}
      </span>
    </td>
  </tr>
);

const Estimate = ({ f }: { f: EarphoneFigures }) => (
  <>
    <p>
      <span class="big">{formatDb(f.total)}</span> dB at the ear, ±{EARPHONE_ERROR} dB or worse:{" "}
      {formatNumber(f.level, 1)} from the earphone, {formatNumber(f.leak, 1)} leaking in from the stage.
    </p>
    <Table
      kind="two-lines"
      caption="Time per day at that level, by rule; below it, the range that the error gives"
      heads={["Rule", "Time"]}
    >
      <tbody>
        <Rule allowed={f.niosh} />
        <Rule allowed={f.osha} />
      </tbody>
    </Table>
    <p class="small soft">
      Directive 2003/10/EC, for a working day of 8 h:{" "}
      {EU_VALUES.map(
        (v) => `${EXPOSURE_VALUES[v.id]} ${v.daily} dBA, ${formatNumber(v.peak, 1)} dBC peak`,
      ).join("; ")}
      .
    </p>
    <Explain about="How the estimate is made">
      <EarHelp />
    </Explain>
  </>
);

const Body = () => {
  const { earphone: ear } = current.value;
  const estimate = figures.value.earphone;
  return (
    <>
      <p class="notice warn small">
        An estimate from data sheets, not a measurement, and this is no dosimeter. Seal, fit and frequency
        move it by {EARPHONE_ERROR} dB or more. In-ear monitors are no hearing protection by themselves, and
        with one ear out people turn up. Hearing limits differ by country: follow local rules and qualified
        advice; in doubt, turn down.
      </p>
      <Tick label="Estimate it" value={ear !== null} onValue={(on) => run(editEarphone(on ? {} : null))} />
      {ear ? (
        <>
          <div class="fields">
            <Choice
              label="Sensitivity is given in"
              value={ear.unit}
              options={[
                ["dB/mW", "dB/mW"],
                ["dB/V", "dB/V"],
              ]}
              onValue={(unit) => run(editEarphone({ unit }))}
            />
            <NumberField
              rule={{ ...RULES.sensitivity, unit: ear.unit }}
              value={ear.sensitivity}
              onValue={(sensitivity) => typing(editEarphone({ sensitivity }))}
              onDone={endVisit}
            />
            {FIELDS.map(([field, label, rule]) => (
              <NumberField
                key={field}
                rule={RULES[rule]}
                label={label}
                value={ear[field]}
                onValue={(v) => typing(editEarphone({ [field]: v }))}
                onDone={endVisit}
              />
            ))}
          </div>
          {estimate ? <Estimate f={estimate} /> : null}
        </>
      ) : null}
    </>
  );
};

/** Estimated level at the ear: optional, with its error and every caution. */
export const EarPanel = () => <Fold title="Earphone level, estimated">{() => <Body />}</Fold>;
