import type { Channel, SendTap } from "../../core/model/setup";
import { setSend } from "../../document/commands/buses";
import { endVisit, run } from "../../document/store";
import { TAP_NAMES } from "../../text/taps";
import { Pick, Tick } from "../../ui/choice";
import { NumberField } from "../../ui/number-field";
import { typing } from "../act";
import { PanEntry } from "../pan-entry";
import { RULES } from "../rules";
import { busTitle } from "../shown-names";
import { chosenBus } from "../state";

const TAPS = (["pre-fader", "post-fader"] as const).map((tap): [SendTap, string] => [tap, TAP_NAMES[tap]]);

/** The way of a channel into the chosen bus: in or not, how loud, and whether its pan follows the channel pan. */
export const SendFields = ({ channel }: { channel: Channel }) => {
  const bus = chosenBus.value;
  if (!bus) return null;
  const name = busTitle(bus.id);
  const send = bus.sends.find((s) => s.channel === channel.id);
  return (
    <>
      <Tick
        label={`In ${name}`}
        value={send !== undefined}
        onValue={(on) => run(setSend(bus.id, channel.id, on ? {} : null))}
      />
      {send ? (
        <NumberField
          rule={RULES.send}
          label={`Send to ${name}`}
          value={send.level}
          step={1}
          onValue={(level) => typing(setSend(bus.id, channel.id, { level }))}
          onEmpty={() => typing(setSend(bus.id, channel.id, { level: null }))}
          onDone={endVisit}
        />
      ) : null}
      {send ? (
        <>
          <Pick
            label={`Tap point for ${name}`}
            value={send.tap}
            options={TAPS}
            onValue={(tap) => run(setSend(bus.id, channel.id, { tap }))}
          />
          <Tick
            label={`Send to ${name} on`}
            value={send.on}
            onValue={(on) => run(setSend(bus.id, channel.id, { on }))}
          />
        </>
      ) : null}
      {send && bus.stereo ? (
        <PanEntry
          label={`Pan in ${name}`}
          value={send.pan}
          empty="follows channel pan"
          onValue={(pan) => typing(setSend(bus.id, channel.id, { pan }))}
          onEmpty={() => typing(setSend(bus.id, channel.id, { pan: null }))}
          onDone={endVisit}
        />
      ) : null}
    </>
  );
};
