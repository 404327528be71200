import { sumCalled } from "../../core/called";
import type { Sum } from "../../core/setup";
import { editConsole, editMonitor, editWishes } from "../../document/commands/settings";
import { duplicateSum, editSum, removeSum } from "../../document/commands/sums";
import { LIMITS } from "../../document/limits";
import { current, endDrag, run } from "../../document/store";
import { Pick, Tick } from "../../pieces/choice";
import { Fold } from "../../pieces/fold";
import { NumberField } from "../../pieces/number-field";
import { TextField } from "../../pieces/text-field";
import { runOrSay, runWithWord, typing } from "../act";
import { full } from "../names";
import { RULES } from "../rules";

/** Usual outputs at 0 dBFS, dBu: EBU R 68 and SMPTE RP 155 alignments among them, the others common practice. */
const OUTPUTS = [15, 16, 18, 20, 22, 24] as const;

const ChainFields = ({ sum }: { sum: Sum }) => {
  const { console, monitor, wishes } = current.value;
  const usual = OUTPUTS.find((o) => o === console.outputDbu);
  return (
    <>
      <Pick
        label="Output at 0 dBFS"
        value={usual === undefined ? "" : String(usual)}
        options={[["", "typed below"], ...OUTPUTS.map((o) => [String(o), `+${o} dBu`] as const)]}
        onValue={(v) => {
          if (v !== "") run(editConsole({ outputDbu: Number(v) }));
        }}
      />
      <NumberField
        rule={RULES.output}
        label="Output at 0 dBFS, typed"
        value={console.outputDbu}
        onValue={(outputDbu) => typing(editConsole({ outputDbu }))}
        onDone={endDrag}
      />
      <NumberField
        rule={RULES.pad}
        label="Pad between output and input"
        value={sum.padDb}
        step={1}
        onValue={(padDb) => typing(editSum(sum.id, { padDb }))}
        onDone={endDrag}
      />
      <NumberField
        rule={RULES.input}
        label="Largest level of the receiving input"
        value={monitor.inputMaxDbu}
        step={1}
        onValue={(inputMaxDbu) => typing(editMonitor({ inputMaxDbu }))}
        onDone={endDrag}
      />
      <NumberField
        rule={RULES.margin}
        value={wishes.margin}
        step={1}
        onValue={(margin) => typing(editWishes({ margin }))}
        onDone={endDrag}
      />
    </>
  );
};

const LegFields = ({ sum, at, name }: { sum: Sum; at: 0 | 1; name: string }) => {
  const put = <T,>(pair: readonly [T, T], value: T): readonly [T, T] =>
    at === 0 ? [value, pair[1]] : [pair[0], value];
  return (
    <>
      <NumberField
        rule={RULES.trim}
        label={`Trim of the ${name} leg`}
        value={sum.legTrim[at]}
        step={0.5}
        onValue={(v) => typing(editSum(sum.id, { legTrim: put(sum.legTrim, v) }))}
        onDone={endDrag}
      />
      <Tick
        label={`Polarity of the ${name} leg inverted`}
        value={sum.legInverted[at]}
        onValue={(v) => run(editSum(sum.id, { legInverted: put(sum.legInverted, v) }))}
      />
    </>
  );
};

/** All that is set of one sum and of the chain behind it. */
export const SumSettings = ({ sum }: { sum: Sum }) => (
  <Fold title={`${sumCalled(sum)}: trims, legs and the chain behind it`}>
    {() => (
      <>
        <div class="fields">
          <TextField
            label="Name"
            most={LIMITS.name}
            value={sum.name}
            onValue={(name) => typing(editSum(sum.id, { name }))}
            onDone={endDrag}
          />
          <NumberField
            rule={RULES.trim}
            label={`Trim of ${sumCalled(sum)}`}
            value={sum.trim}
            step={0.5}
            onValue={(trim) => typing(editSum(sum.id, { trim }))}
            onDone={endDrag}
          />
          <ChainFields sum={sum} />
          {sum.stereo ? (
            <>
              <LegFields sum={sum} at={0} name="left" />
              <LegFields sum={sum} at={1} name="right" />
            </>
          ) : null}
        </div>
        <Tick
          label="A pair (two legs)"
          value={sum.stereo}
          onValue={(stereo) => run(editSum(sum.id, { stereo }))}
        />
        {sum.stereo ? (
          <>
            <Tick
              label="Folded to mono on purpose"
              value={sum.folded}
              onValue={(folded) => run(editSum(sum.id, { folded }))}
            />
            <Tick
              label="One leg is processed differently from the other"
              value={sum.unevenLegs}
              onValue={(unevenLegs) => run(editSum(sum.id, { unevenLegs }))}
            />
          </>
        ) : null}
        <div class="row">
          <button type="button" onClick={() => runOrSay(duplicateSum(sum.id), full("sums"))}>
            Duplicate the sum
          </button>
          <button type="button" onClick={() => runWithWord(removeSum(sum.id), `${sumCalled(sum)} deleted`)}>
            Delete the sum
          </button>
        </div>
      </>
    )}
  </Fold>
);
