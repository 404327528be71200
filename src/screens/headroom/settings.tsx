import type { Bus } from "../../core/model/setup";
import { duplicateBus, editBus, removeBus } from "../../document/commands/buses";
import { editDesk, editMonitorSystem, editPreferences } from "../../document/commands/settings";
import { LIMITS } from "../../document/limits";
import { current, endVisit, run } from "../../document/store";
import { busName } from "../../text/names";
import { Pick, Tick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { NumberField } from "../../ui/number-field";
import { TextField } from "../../ui/text-field";
import { runOrSay, runWithWord, typing } from "../act";
import { DeskNumberFields } from "../desk-number-fields";
import { RULES } from "../rules";
import { full } from "../shown-names";

/** Usual outputs at 0 dBFS, dBu: EBU R 68 and SMPTE RP 155 alignments among them, the others common practice. */
const OUTPUTS = [15, 16, 18, 20, 22, 24] as const;

/** Levels in dBu between an analog output and the receiving input: a digital link has none. */
const AnalogFields = ({ bus }: { bus: Bus }) => {
  const { desk, monitor } = current.value;
  const usual = OUTPUTS.find((o) => o === desk.outputDbu);
  return (
    <>
      <Pick
        label="Output at 0 dBFS"
        value={usual === undefined ? "" : String(usual)}
        options={[["", "typed below"], ...OUTPUTS.map((o) => [String(o), `+${o} dBu`] as const)]}
        onValue={(v) => {
          if (v !== "") run(editDesk({ outputDbu: Number(v) }));
        }}
      />
      <NumberField
        rule={RULES.output}
        label="Output at 0 dBFS, typed"
        value={desk.outputDbu}
        onValue={(outputDbu) => typing(editDesk({ outputDbu }))}
        onDone={endVisit}
      />
      <NumberField
        rule={RULES.pad}
        label="Pad between output and input"
        value={bus.padDb}
        step={1}
        onValue={(padDb) => typing(editBus(bus.id, { padDb }))}
        onDone={endVisit}
      />
      <NumberField
        rule={RULES.input}
        label="Max input level"
        value={monitor.maxInputDbu}
        step={1}
        onValue={(maxInputDbu) => typing(editMonitorSystem({ maxInputDbu }))}
        onDone={endVisit}
      />
    </>
  );
};

const ChainFields = ({ bus }: { bus: Bus }) => (
  <>
    {current.value.monitor.link === "analog" ? <AnalogFields bus={bus} /> : null}
    <NumberField
      rule={RULES.margin}
      value={current.value.preferences.targetHeadroom}
      step={1}
      onValue={(targetHeadroom) => typing(editPreferences({ targetHeadroom }))}
      onDone={endVisit}
    />
  </>
);

const SideFields = ({ bus, at, name }: { bus: Bus; at: 0 | 1; name: string }) => {
  const put = <T,>(pair: readonly [T, T], value: T): readonly [T, T] =>
    at === 0 ? [value, pair[1]] : [pair[0], value];
  return (
    <>
      <NumberField
        rule={RULES.trim}
        label={`Trim ${name}`}
        value={bus.sideTrim[at]}
        step={0.5}
        onValue={(v) => typing(editBus(bus.id, { sideTrim: put(bus.sideTrim, v) }))}
        onDone={endVisit}
      />
      <Tick
        label={`Polarity ${name} inverted`}
        value={bus.sideInverted[at]}
        onValue={(v) => run(editBus(bus.id, { sideInverted: put(bus.sideInverted, v) }))}
      />
    </>
  );
};

/** All that is set of one bus and of the chain behind it. */
export const BusSettings = ({ bus }: { bus: Bus }) => (
  <Fold title={`${busName(bus)}: fader, trims and output chain`}>
    {() => (
      <>
        <div class="fields">
          <TextField
            label="Name"
            most={LIMITS.name}
            value={bus.name}
            onValue={(name) => typing(editBus(bus.id, { name }))}
            onDone={endVisit}
          />
          <DeskNumberFields
            label="Bus number"
            numbers={bus.numbers}
            stereo={bus.stereo}
            onNumbers={(numbers) => typing(editBus(bus.id, { numbers }))}
          />
          <NumberField
            rule={RULES.fader}
            label={`Fader of ${busName(bus)}`}
            value={bus.fader}
            step={1}
            onValue={(fader) => typing(editBus(bus.id, { fader }))}
            onEmpty={() => typing(editBus(bus.id, { fader: null }))}
            onDone={endVisit}
          />
          <NumberField
            rule={RULES.trim}
            label={`Trim of ${busName(bus)}`}
            value={bus.trim}
            step={0.5}
            onValue={(trim) => typing(editBus(bus.id, { trim }))}
            onDone={endVisit}
          />
          <ChainFields bus={bus} />
          {bus.stereo ? (
            <>
              <SideFields bus={bus} at={0} name="L" />
              <SideFields bus={bus} at={1} name="R" />
            </>
          ) : null}
        </div>
        <Tick label="Stereo bus" value={bus.stereo} onValue={(stereo) => run(editBus(bus.id, { stereo }))} />
        {bus.stereo ? (
          <>
            <Tick
              label="Folded to mono"
              value={bus.folded}
              onValue={(folded) => run(editBus(bus.id, { folded }))}
            />
            <Tick
              label="L and R are processed differently"
              value={bus.unevenSides}
              onValue={(unevenSides) => run(editBus(bus.id, { unevenSides }))}
            />
          </>
        ) : null}
        <div class="row">
          <button type="button" onClick={() => runOrSay(duplicateBus(bus.id), full("buses"))}>
            Duplicate the bus
          </button>
          <button type="button" onClick={() => runWithWord(removeBus(bus.id), `${busName(bus)} removed`)}>
            Remove the bus
          </button>
        </div>
      </>
    )}
  </Fold>
);
