import type { Channel, Colour, DirectOut, TapPoint } from "../../core/model/setup";
import { editChannel } from "../../document/commands/channels";
import { LIMITS } from "../../document/limits";
import { endVisit, run } from "../../document/store";
import { COLOUR_NAMES } from "../../text/colours";
import { TAP_NAMES } from "../../text/taps";
import { Pick, Tick } from "../../ui/choice";
import { NumberField } from "../../ui/number-field";
import { TextField } from "../../ui/text-field";
import { typing } from "../act";
import { DeskNumberFields } from "../desk-number-fields";
import { RULES } from "../rules";

const TAPS = Object.entries(TAP_NAMES) as [TapPoint, string][];
const COLOURS = Object.entries(COLOUR_NAMES) as [Colour, string][];

/** Where a channel lies at the desk: its numbers, its fader, its direct out, its colour and group. */
export const ChannelDesk = ({ channel }: { channel: Channel }) => {
  const { id, directOut } = channel;
  const withDirectOut = (patch: Partial<DirectOut>) =>
    editChannel(id, { directOut: { ...directOut, ...patch } });
  return (
    <>
      <DeskNumberFields
        label="Channel number"
        numbers={channel.numbers}
        stereo={channel.lines === 2}
        onNumbers={(numbers) => typing(editChannel(id, { numbers }))}
      />
      <NumberField
        rule={RULES.fader}
        value={channel.fader}
        step={1}
        onValue={(fader) => typing(editChannel(id, { fader }))}
        onEmpty={() => typing(editChannel(id, { fader: null }))}
        onDone={endVisit}
      />
      <Pick
        label="Direct out tap point"
        value={directOut.tap}
        options={TAPS}
        onValue={(tap) => run(withDirectOut({ tap }))}
      />
      <NumberField
        rule={RULES.trim}
        label="Direct out trim"
        value={directOut.trim}
        step={1}
        onValue={(trim) => typing(withDirectOut({ trim }))}
        onDone={endVisit}
      />
      <Tick label="Direct out on" value={directOut.on} onValue={(on) => run(withDirectOut({ on }))} />
      <Pick
        label="Colour"
        value={channel.colour ?? ""}
        options={[["", "none"], ...COLOURS]}
        onValue={(colour) => run(editChannel(id, { colour: colour === "" ? null : colour }))}
      />
      <TextField
        label="Group"
        most={LIMITS.name}
        value={channel.group}
        onValue={(group) => typing(editChannel(id, { group }))}
        onDone={endVisit}
      />
    </>
  );
};
