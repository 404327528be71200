import { computed, signal, useComputed, useSignal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import { levelOf } from "../../core/level/decibels";
import { formatNumber } from "../../core/lib/number";
import type { Channel, Id } from "../../core/model/setup";
import { formatPan } from "../../core/pan/notation";
import { PAN_STYLES } from "../../core/pan/notation-styles";
import { dragPan, editChannel } from "../../document/commands/channels";
import { LIMITS } from "../../document/limits";
import { current, endVisit, figures, run } from "../../document/store";
import { describeShare } from "../../text/headroom";
import { formatDeskNumbers, nameOr } from "../../text/names";
import { Icon } from "../../ui/icon";
import { lazy } from "../../ui/lazy";
import { PanBar } from "../../ui/pan-bar";
import { TextField } from "../../ui/text-field";
import { typing } from "../act";
import { BusMark } from "../headroom/issues";
import { chosenBus } from "../state";
import type { Neighbours } from "./channel-details";

const level = (gain: number): string => formatNumber(levelOf(gain), 1);

/** The share of the bus’s peak that each channel costs, on the side where it is larger; null where its peak is not known. */
const shares = computed<ReadonlyMap<Id, number | null>>(() => {
  const bus = chosenBus.value;
  const its = bus && figures.value.buses.get(bus.id);
  const most = new Map<Id, number | null>();
  for (const { contributions } of its ? (bus.stereo ? its.sides : [its.mono]) : [])
    for (const { channel, peak, peakShare } of contributions)
      most.set(channel, peak === null ? null : Math.max(peakShare, most.get(channel) ?? 0));
  return most;
});

/** What a channel costs in the chosen bus, or why nothing, in as few words as a row has room for. */
const costOf = (channel: Id): string => {
  const bus = chosenBus.value;
  if (!bus) return "";
  const share = shares.value.get(channel);
  if (share !== undefined) return describeShare(share);
  return bus.sends.some((send) => send.channel === channel) ? "silent" : "no send";
};

/** What each channel brings into the sides of the chosen bus, as it is shown; nothing where it brings nothing. */
const shownSides = computed<ReadonlyMap<Id, readonly [string, string]>>(() => {
  const bus = chosenBus.value;
  const parts = (bus && figures.value.mixed.get(bus.id)) ?? [];
  return new Map(parts.map((p) => [p.channel.id, [level(p.sides[0]), level(p.sides[1])]]));
});

/** A channel that was just added; null once its name is left. */
export const added = signal<Id | null>(null);

const desk = computed(() => current.value.desk);

const ChannelDetails = lazy(async () => (await import("./channel-details")).ChannelDetails);

const leaveName = (): void => {
  endVisit();
  added.value = null;
};

/** The name of a channel that was just added, selected, until it is left. */
const NewName = ({ channel }: { channel: Channel }) => {
  // Taken away with its row or its place, a field is not always told that it is left.
  useLayoutEffect(() => leaveName, []);
  return (
    <TextField
      label="Name"
      hideLabel
      selected
      most={LIMITS.name}
      value={channel.name}
      onValue={(name) => typing(editChannel(channel.id, { name }))}
      onDone={leaveName}
    />
  );
};

/**
 * One channel: its number and name, its pan under the thumb with what reaches the sides, what it costs, its mute;
 * the rest behind one tap. While one of many is dragged, only the rows in which something changes are drawn again.
 */
export const ChannelRow = (props: { channel: Channel } & Neighbours) => {
  const { channel } = props;
  const open = useSignal(false);
  const console = desk.value;
  // A row keeps its channel for good, so what is computed here is of the same one.
  const left = useComputed(() => shownSides.value.get(channel.id)?.[0]).value;
  const right = useComputed(() => shownSides.value.get(channel.id)?.[1]).value;
  const cost = useComputed(() => costOf(channel.id)).value;
  const isNew = useComputed(() => added.value === channel.id).value;
  const name = nameOr(channel, "channel");
  const printed = formatPan(channel.pan, console);
  return (
    <li class={`channel${channel.muted ? " muted" : ""}`} data-colour={channel.colour}>
      <div class="channel-head">
        <span class="soft number">{formatDeskNumbers(channel.numbers)}</span>
        {isNew ? (
          <NewName channel={channel} />
        ) : (
          <button
            type="button"
            class="bare name"
            aria-expanded={open.value}
            onClick={() => {
              open.value = !open.value;
            }}
          >
            <b>{name}</b>{" "}
            <span class="soft small">
              <span class="pan-shown">{printed}</span> <span>{cost}</span>
            </span>
          </button>
        )}
        <PanBar
          label={`Channel pan of ${name}`}
          value={channel.pan}
          printed={printed}
          sides={left !== undefined && right !== undefined ? [left, right] : undefined}
          steps={PAN_STYLES[console.panStyle].steps(console)}
          onValue={(pan) => run(dragPan(channel.id, pan))}
          onDone={endVisit}
        />
        <button
          type="button"
          class="bare"
          aria-pressed={channel.muted}
          aria-label={`Mute ${name}`}
          onClick={() => run(editChannel(channel.id, { muted: !channel.muted }))}
        >
          <Icon name={channel.muted ? "hush" : "sound"} />
        </button>
      </div>
      <BusMark channel={channel.id} />
      {open.value ? <ChannelDetails {...props} /> : null}
    </li>
  );
};
