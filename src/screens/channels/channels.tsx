import { signal } from "@preact/signals";
import { formatNumber, formatSigned } from "../../core/lib/number";
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
import { ChannelRow } from "./channel-row";

const KitHelp = lazy(async () => (await import("./help")).KitHelp);
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

/** The place for sources: what there is, where it is panned, how loud it is, what goes into the bus. */
export const ChannelsScreen = () => {
  const { channels } = current.value;
  const bus = chosenBus.value;
  const inBus = new Set(bus?.sends.map((s) => s.channel));
  const sounding = bus ? (figures.value.mixed.get(bus.id)?.length ?? 0) : 0;
  const { tone, says } = describeChannels(bus, sounding, channels.length, shortBuses().length);
  const listed = onlyBus.value && inBus.size > 0 ? channels.filter((s) => inBus.has(s.id)) : channels;
  return (
    <>
      <Verdict tone={tone} says={says}>
        {lawLine()} Each mark is the channel pan; beside it what each side gets, dB. <BusFlags />
      </Verdict>
      <BusPick label="Bus shown" />
      {inBus.size > 0 && inBus.size < channels.length ? (
        <Choice
          label="Channels listed"
          hideLabel
          value={onlyBus.value ? "bus" : "all"}
          options={[
            ["bus", `In ${busTitle(bus?.id ?? "")} (${inBus.size})`],
            ["all", `All channels (${channels.length})`],
          ]}
          onValue={(v) => {
            onlyBus.value = v === "bus";
          }}
        />
      ) : null}
      <ul class="stack channels" aria-label="Channels">
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
      <button
        type="button"
        class="main"
        onClick={() => runOrSay(addChannel(bus?.id ?? null), full("channels"))}
      >
        <span class="row">
          <Icon name="plus" /> Add a channel
        </span>
      </button>
      <Fold title="Add channels">{() => <AddLines />}</Fold>
      <Explain about="What level, peak and send mean">
        <KitHelp />
      </Explain>
      <ConsoleSettings />
    </>
  );
};
