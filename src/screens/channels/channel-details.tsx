import { CHANNEL_KINDS, kitPieceName } from "../../core/model/kinds";
import type { Channel, ChannelKind, Id } from "../../core/model/setup";
import { duplicateChannel, editChannel, moveChannel, removeChannel } from "../../document/commands/channels";
import { LIMITS } from "../../document/limits";
import { current, endVisit, run } from "../../document/store";
import { nameOr } from "../../text/names";
import { Pick, Tick } from "../../ui/choice";
import { Icon } from "../../ui/icon";
import { NumberField } from "../../ui/number-field";
import { TextField } from "../../ui/text-field";
import { runOrSay, runWithWord, typing } from "../act";
import { PanEntry } from "../pan-entry";
import { RULES } from "../rules";
import { full } from "../shown-names";
import { ChannelDesk } from "./channel-desk";
import { ExtraFields } from "./extra-fields";
import { SendFields } from "./send-fields";

const KINDS = Object.entries(CHANNEL_KINDS) as [ChannelKind, string][];

const Level = ({ channel }: { channel: Channel }) => (
  <>
    <NumberField
      rule={RULES.level}
      label="Gated RMS"
      value={channel.gatedRms}
      step={1}
      onValue={(level) => typing(editChannel(channel.id, { gatedRms: level }))}
      onEmpty={() => typing(editChannel(channel.id, { gatedRms: null }))}
      onDone={endVisit}
    />
    <NumberField
      rule={RULES.peak}
      value={channel.peak}
      step={1}
      onValue={(peak) => typing(editChannel(channel.id, { peak }))}
      onEmpty={() => typing(editChannel(channel.id, { peak: null }))}
      onDone={endVisit}
    />
    <NumberField
      rule={RULES.activity}
      value={channel.activity === null ? null : 100 * channel.activity}
      onValue={(percent) => typing(editChannel(channel.id, { activity: percent / 100 }))}
      onEmpty={() => typing(editChannel(channel.id, { activity: null }))}
      onDone={endVisit}
    />
  </>
);

/** The channels next to this one in the list as it is shown. */
export interface Neighbours {
  readonly before: Id | undefined;
  readonly after: Id | undefined;
}

const Moves = ({ channel, before, after }: { channel: Channel } & Neighbours) => {
  const name = nameOr(channel, "channel");
  const move = (past: Id | undefined, way: "up" | "down") => (
    <button
      type="button"
      disabled={past === undefined}
      aria-label={`Move ${name} ${way}`}
      onClick={() => past !== undefined && run(moveChannel(channel.id, past))}
    >
      <Icon name={way} />
    </button>
  );
  return (
    <div class="row">
      {move(before, "up")}
      {move(after, "down")}
      <button type="button" onClick={() => runOrSay(duplicateChannel(channel.id), full("channels"))}>
        Duplicate
      </button>
      <button type="button" onClick={() => runWithWord(removeChannel(channel.id), `${name} removed`)}>
        Remove
      </button>
    </div>
  );
};

/** All of a channel that is not seen in its row. */
export const ChannelDetails = ({ channel, ...neighbours }: { channel: Channel } & Neighbours) => {
  const { kit } = current.value;
  const edit = (patch: Partial<Omit<Channel, "id">>) => run(editChannel(channel.id, patch));
  const pieces = kit.pieces.map((p) => [p.id, kitPieceName(p)] as const);
  return (
    <div class="stack">
      <div class="fields">
        <TextField
          label="Name"
          most={LIMITS.name}
          value={channel.name}
          onValue={(name) => typing(editChannel(channel.id, { name }))}
          onDone={endVisit}
        />
        <PanEntry
          label="Channel pan"
          value={channel.pan}
          onValue={(pan) => typing(editChannel(channel.id, { pan }))}
          onDone={endVisit}
        />
        <Level channel={channel} />
        <SendFields channel={channel} />
        <ChannelDesk channel={channel} />
        <Pick label="Kind" value={channel.kind} options={KINDS} onValue={(kind) => edit({ kind })} />
        <Pick
          label="Kit piece"
          value={channel.piece ?? ""}
          options={[["", "not at the kit"], ...pieces]}
          onValue={(piece) => edit({ piece: piece === "" ? null : piece })}
        />
        <Pick
          label="Mono or stereo"
          value={channel.lines === 1 ? "1" : "2"}
          options={[
            ["1", "Mono"],
            ["2", "Stereo"],
          ]}
          onValue={(n) => edit({ lines: n === "1" ? 1 : 2 })}
        />
        <ExtraFields channel={channel} />
      </div>
      <Tick label="Polarity inverted" value={channel.inverted} onValue={(inverted) => edit({ inverted })} />
      <Tick
        label="Keep L/R (stereo playback, keys)"
        value={channel.keepSides}
        onValue={(keepSides) => edit({ keepSides })}
      />
      <Moves channel={channel} {...neighbours} />
    </div>
  );
};
