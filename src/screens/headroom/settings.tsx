import type { Bus } from "../../core/model/setup";
import { duplicateBus, editBus, removeBus } from "../../document/commands/buses";
import { editDesk, editMonitorSystem, editPreferences } from "../../document/commands/settings";
import { LIMITS } from "../../document/limits";
import { current, endDrag, run } from "../../document/store";
import { busName } from "../../text/names";
import { Pick, Tick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { NumberField } from "../../ui/number-field";
import { TextField } from "../../ui/text-field";
import { runOrSay, runWithWord, typing } from "../act";
import { RULES } from "../rules";
import { full } from "../shown-names";

/** Usual outputs at 0 dBFS, dBu: EBU R 68 and SMPTE RP 155 alignments among them, the others common practice. */
const OUTPUTS = [15, 16, 18, 20, 22, 24] as const;

const ChainFields = ({ bus }: { bus: Bus }) => {
  const { desk: console, monitor, preferences: wishes } = current.value;
  const usual = OUTPUTS.find((o) => o === console.outputDbu);
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
        value={console.outputDbu}
        onValue={(outputDbu) => typing(editDesk({ outputDbu }))}
        onDone={endDrag}
      />
      <NumberField
        rule={RULES.pad}
        label="Pad between output and input"
        value={bus.padDb}
        step={1}
        onValue={(padDb) => typing(editBus(bus.id, { padDb }))}
        onDone={endDrag}
      />
      <NumberField
        rule={RULES.input}
        label="Max input level"
        value={monitor.maxInputDbu}
        step={1}
        onValue={(inputMaxDbu) => typing(editMonitorSystem({ maxInputDbu: inputMaxDbu }))}
        onDone={endDrag}
      />
      <NumberField
        rule={RULES.margin}
        value={wishes.targetHeadroom}
        step={1}
        onValue={(margin) => typing(editPreferences({ targetHeadroom: margin }))}
        onDone={endDrag}
      />
    </>
  );
};

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
        onDone={endDrag}
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
  <Fold title={`${busName(bus)}: trims, sides and the chain behind it`}>
    {() => (
      <>
        <div class="fields">
          <TextField
            label="Name"
            most={LIMITS.name}
            value={bus.name}
            onValue={(name) => typing(editBus(bus.id, { name }))}
            onDone={endDrag}
          />
          <NumberField
            rule={RULES.trim}
            label={`Trim of ${busName(bus)}`}
            value={bus.trim}
            step={0.5}
            onValue={(trim) => typing(editBus(bus.id, { trim }))}
            onDone={endDrag}
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
          <button type="button" onClick={() => runWithWord(removeBus(bus.id), `${busName(bus)} deleted`)}>
            Delete the bus
          </button>
        </div>
      </>
    )}
  </Fold>
);
