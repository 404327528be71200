import { keysOf } from "../../core/lib/keys";
import type { Desk, MuteRule, TapPoint } from "../../core/model/setup";
import { editDesk } from "../../document/commands/settings";
import { LIMITS } from "../../document/limits";
import { current, endVisit, run } from "../../document/store";
import { TAP_NAMES } from "../../text/taps";
import { Tick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { NumberField } from "../../ui/number-field";
import { TextField } from "../../ui/text-field";
import { typing } from "../act";
import { RULES } from "../rules";

const TAPS = keysOf(TAP_NAMES);

/** Whole numbers of the desk, as they are asked for. */
const COUNTS = [
  ["channelCount", "Channels of the desk"],
  ["busCount", "Buses of the desk"],
  ["portCount", "Output ports"],
  ["bankSize", "Channels in a bank"],
] as const;

const Layout = ({ desk }: { desk: Desk }) => (
  <div class="fields">
    <TextField
      label="Desk name"
      most={LIMITS.name}
      value={desk.name}
      onValue={(name) => typing(editDesk({ name }))}
      onDone={endVisit}
    />
    {COUNTS.map(([field, label]) => (
      <NumberField
        key={field}
        rule={RULES[field]}
        label={label}
        value={desk[field]}
        onValue={(count) => typing(editDesk({ [field]: count }))}
        onDone={endVisit}
      />
    ))}
    <TextField
      label="Output ports are called"
      most={LIMITS.name}
      value={desk.portName}
      onValue={(portName) => typing(editDesk({ portName }))}
      onDone={endVisit}
    />
    <NumberField
      rule={RULES.firstPort}
      value={desk.firstPort}
      onValue={(firstPort) => typing(editDesk({ firstPort }))}
      onDone={endVisit}
    />
    <NumberField
      rule={RULES.trimStep}
      value={desk.trimStep}
      onValue={(trimStep) => typing(editDesk({ trimStep }))}
      onDone={endVisit}
    />
  </div>
);

const Mutes = ({ rule }: { rule: MuteRule }) => {
  const edit = (patch: Partial<MuteRule>) => run(editDesk({ muteRule: { ...rule, ...patch } }));
  const withTap = (tap: TapPoint, on: boolean) =>
    TAPS.filter((t) => (t === tap ? on : rule.directOuts.includes(t)));
  return (
    <section class="stack" aria-label="What a channel mute also mutes">
      <p class="small">A channel mute always mutes post-fader sends and post-fader direct outs.</p>
      <Tick
        label="Mute also mutes pre-fader sends"
        value={rule.preFaderSends}
        onValue={(preFaderSends) => edit({ preFaderSends })}
      />
      {TAPS.filter((tap) => tap !== "post-fader").map((tap) => (
        <Tick
          key={tap}
          label={`Mute also mutes ${TAP_NAMES[tap]} direct outs`}
          value={rule.directOuts.includes(tap)}
          onValue={(on) => edit({ directOuts: withTap(tap, on) })}
        />
      ))}
    </section>
  );
};

/** What the desk has, how its ports are called, what its mutes take, and where its buses clip. */
export const DeskLayout = () => {
  const { desk } = current.value;
  return (
    <Fold title="The desk: numbers, ports, mutes">
      {() => (
        <>
          <Layout desk={desk} />
          <Tick
            label="Buses can overload before their fader"
            value={desk.busOverloads}
            onValue={(busOverloads) => run(editDesk({ busOverloads }))}
          />
          <p class="small soft">
            Off for floating-point desks: only outputs clip, and the bus fader brings a hot bus down. On for
            analog and fixed-point desks: the bus clips first, so only lower sends help. Common practice, no
            source.
          </p>
          <Mutes rule={desk.muteRule} />
        </>
      )}
    </Fold>
  );
};
