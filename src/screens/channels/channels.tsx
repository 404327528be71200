import { signal, useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { formatNumber, formatSigned } from "../../core/lib/number";
import type { Id } from "../../core/model/setup";
import { centreLevel, LAWS } from "../../core/pan/laws";
import { addChannel } from "../../document/commands/channels";
import { current, figures } from "../../document/store";
import { describeChannels } from "../../text/channels";
import { Choice } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Icon } from "../../ui/icon";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { runOrSay } from "../act";
import { BusPick } from "../bus-pick";
import { BusFlags, shortBuses } from "../headroom/issues";
import { busTitle, full } from "../shown-names";
import { chosenBus } from "../state";
import { added, ChannelRow } from "./channel-row";

const KitHelp = lazy(async () => (await import("./help")).KitHelp);
const SelectChannels = lazy(async () => (await import("./select")).SelectChannels);
const AddLines = lazy(async () => (await import("./add-lines")).AddLines);
const ConsoleSettings = lazy(async () => (await import("./desk-settings")).ConsoleSettings);

/** One line on the pan law in force. */
const lawLine = (): string => {
  const { law, centreDb, reference } = current.value.desk;
  const centre = centreLevel(law, centreDb);
  const said =
    reference === "sides"
      ? `unity hard-panned, centre ${formatNumber(centre, 1)} dB`
      : `unity at centre, hard-panned ${formatSigned(-centre, 1)} dB`;
  return `${LAWS[law].name}: ${said}.`;
};

/** Only the channels of the chosen bus are listed; the others behind one tap. */
const onlyBus = signal(true);

/**
 * The channels that the list leaves out: those outside the chosen bus as the list of it was entered, none where the bus
 * was empty. One that leaves the bus stays until the list is left, and one that is new is there wherever it goes: nothing
 * vanishes under the thumb.
 */
const useHidden = (inBus: ReadonlySet<Id>): { readonly hidden: ReadonlySet<Id>; enter: () => void } => {
  const entered = useSignal(0);
  const hidden = useMemo(() => {
    const outside = onlyBus.value && inBus.size > 0 ? current.value.channels : [];
    return new Set(outside.map((c) => c.id));
  }, [chosenBus.value?.id, onlyBus.value, entered.value]);
  for (const id of inBus) hidden.delete(id);
  return {
    hidden,
    enter: () => {
      entered.value += 1;
    },
  };
};

/** Says of the example that it is one, and leads to a band of the user's own. */
const OwnBand = () =>
  current.value.example ? (
    <div class="row">
      <p class="grow soft">This band is an invented example.</p>
      <button
        type="button"
        onClick={() => {
          location.hash = "setups";
        }}
      >
        Start your own
      </button>
    </div>
  ) : null;

/** The place for channels: what there is, where it is panned, how loud it is, what goes into the bus. */
export const ChannelsScreen = () => {
  const { channels } = current.value;
  const bus = chosenBus.value;
  const inBus = new Set(bus?.sends.map((s) => s.channel));
  const sounding = bus ? (figures.value.mixed.get(bus.id)?.length ?? 0) : 0;
  const { tone, says } = describeChannels(bus, sounding, channels.length, shortBuses().length);
  const { hidden, enter } = useHidden(inBus);
  const listed = channels.filter((c) => !hidden.has(c.id));
  /** Several channels are being selected. */
  const isSelecting = useSignal(false);
  const add = () => {
    if (!runOrSay(addChannel(bus?.id ?? null), full("channels"))) return;
    added.value = current.value.channels.at(-1)?.id ?? null;
  };
  if (isSelecting.value)
    return (
      <SelectChannels
        channels={listed}
        onDone={() => {
          isSelecting.value = false;
        }}
      />
    );
  return (
    <>
      <Verdict tone={tone} says={says}>
        {lawLine()} Under each name: pan and share of the bus’s peak. Under each pan bar: L and R in dB.{" "}
        <BusFlags />
      </Verdict>
      <OwnBand />
      <BusPick label="Bus shown" />
      {inBus.size > 0 && inBus.size < channels.length ? (
        <Choice
          label="Channels shown"
          hideLabel
          value={hidden.size > 0 ? "bus" : "all"}
          options={[
            ["bus", `In ${busTitle(bus?.id ?? "")} (${inBus.size})`],
            ["all", `All channels (${channels.length})`],
          ]}
          onValue={(v) => {
            onlyBus.value = v === "bus";
            enter();
          }}
        />
      ) : null}
      <ul class="channels" aria-label="Channels">
        {listed.map((channel, at) => (
          <ChannelRow
            key={channel.id}
            channel={channel}
            before={listed[at - 1]?.id}
            after={listed[at + 1]?.id}
          />
        ))}
      </ul>
      {channels.length === 0 ? (
        <p class="soft">Add the first channel, or start from a template under Setups.</p>
      ) : null}
      <div class="row">
        <button type="button" class="main grow" onClick={add}>
          <span class="row">
            <Icon name="plus" /> Add a channel
          </span>
        </button>
        {channels.length > 1 ? (
          <button
            type="button"
            onClick={() => {
              isSelecting.value = true;
            }}
          >
            Select
          </button>
        ) : null}
      </div>
      <Fold title="Add channels">{() => <AddLines />}</Fold>
      <Explain about="What level, peak and send mean">
        <KitHelp />
      </Explain>
      <ConsoleSettings />
    </>
  );
};
