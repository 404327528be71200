import { computed, useComputed, useSignal } from "@preact/signals";
import { levelOf } from "../../core/level/decibels";
import { formatNumber } from "../../core/lib/number";
import type { Channel, Id } from "../../core/model/setup";
import { formatPan } from "../../core/pan/notation";
import { STYLES } from "../../core/pan/notation-styles";
import { dragPan, editChannel } from "../../document/commands/channels";
import { current, endDrag, figures, run } from "../../document/store";
import { formatChannelNumbers, nameOr } from "../../text/names";
import { Icon } from "../../ui/icon";
import { lazy } from "../../ui/lazy";
import { PanBar } from "../../ui/pan-bar";
import { BusMark } from "../headroom/issues";
import { chosenBus } from "../state";
import type { Neighbours } from "./channel-details";

const level = (gain: number): string => formatNumber(levelOf(gain), 1);

/** What each channel brings into the sides of the chosen bus, as it is shown; nothing where it brings nothing. */
const shownSides = computed<ReadonlyMap<Id, readonly [string, string]>>(() => {
  const bus = chosenBus.value;
  const parts = (bus && figures.value.mixed.get(bus.id)) ?? [];
  return new Map(parts.map((p) => [p.channel.id, [level(p.sides[0]), level(p.sides[1])]]));
});

const desk = computed(() => current.value.desk);

const ChannelDetails = lazy(async () => (await import("./channel-details")).ChannelDetails);

/**
 * One source: its name, its pan under the thumb, what reaches the sides; the rest behind one tap.
 * While one of many is dragged, only the rows in which something changes are drawn again.
 */
export const ChannelRow = (props: { channel: Channel } & Neighbours) => {
  const { channel } = props;
  const open = useSignal(false);
  const console = desk.value;
  // A row keeps its source for good, so what is computed here is of the same one.
  const left = useComputed(() => shownSides.value.get(channel.id)?.[0]).value;
  const right = useComputed(() => shownSides.value.get(channel.id)?.[1]).value;
  const name = nameOr(channel, "channel");
  const printed = formatPan(channel.pan, console);
  return (
    <li class={`card stack channel${channel.muted ? " muted" : ""}`}>
      <div class="row channel-head">
        {channel.numbers.length > 0 ? (
          <span class="soft">{formatChannelNumbers(channel.numbers)}</span>
        ) : null}
        <button
          type="button"
          class="bare grow name"
          aria-expanded={open.value}
          onClick={() => {
            open.value = !open.value;
          }}
        >
          <b>{name}</b>
          <Icon name={open.value ? "up" : "down"} size={18} />
        </button>
        <span class="big pan-shown" aria-hidden="true">
          {printed}
        </span>
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
      <PanBar
        label={`Channel pan of ${name}`}
        value={channel.pan}
        printed={printed}
        sides={left !== undefined && right !== undefined ? [left, right] : undefined}
        steps={STYLES[console.panStyle].steps(console)}
        onValue={(pan) => run(dragPan(channel.id, pan))}
        onDone={endDrag}
      />
      <BusMark channel={channel.id} />
      {open.value ? <ChannelDetails {...props} /> : null}
    </li>
  );
};
