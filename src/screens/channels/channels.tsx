import { signal } from "@preact/signals";
import { formatNumber, formatSigned } from "../../core/lib/number";
import { centreLevel, LAWS } from "../../core/pan/laws";
import { addChannel } from "../../document/commands/channels";
import { current, figures } from "../../document/store";
import { formatCount } from "../../text/words";
import { Choice } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Icon } from "../../ui/icon";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { runOrSay } from "../act";
import { BusPick } from "../bus-pick";
import { BusFlags } from "../headroom/issues";
import { busTitle, full } from "../shown-names";
import { chosenBus } from "../state";
import { ChannelRow } from "./channel-row";

const KitHelp = lazy(async () => (await import("./help")).KitHelp);
const ConsoleSettings = lazy(async () => (await import("./desk-settings")).ConsoleSettings);

/** One line on the pan law in force. */
const lawLine = (): string => {
  const { law, centreDb, reference } = current.value.desk;
  const centre = centreLevel(law, centreDb);
  const said =
    reference === "sides"
      ? `centre ${formatNumber(centre, 1)} dB, sides at 0 dB`
      : `centre at 0 dB, sides ${formatSigned(-centre, 1)} dB`;
  return `${LAWS[law].name}: ${said}.`;
};

const headline = (): string => {
  const bus = chosenBus.value;
  if (!bus) return "No bus yet: every channel is on its own";
  const sounding = figures.value.mixed.get(bus.id)?.length ?? 0;
  if (sounding === 0) return `No channel reaches ${busTitle(bus.id)} yet`;
  return `${formatCount(sounding, "channel")} in one ${bus.stereo ? "stereo" : "mono"} bus: ${busTitle(bus.id)}`;
};

/** Only the channels of the chosen bus are listed; the others behind one tap. */
const onlyBus = signal(true);

/** The place for sources: what there is, where it is panned, how loud it is, what goes into the bus. */
export const ChannelsScreen = () => {
  const { channels } = current.value;
  const bus = chosenBus.value;
  const inBus = new Set(bus?.sends.map((s) => s.channel));
  const listed = onlyBus.value && inBus.size > 0 ? channels.filter((s) => inBus.has(s.id)) : channels;
  return (
    <>
      <Verdict tone={channels.length === 0 ? "care" : "fine"} says={headline()}>
        {lawLine()} Each mark is the channel pan; beside it what each side gets, dB. <BusFlags />
      </Verdict>
      <BusPick label="Bus shown" />
      {inBus.size > 0 && inBus.size < channels.length ? (
        <Choice
          label="Channels listed"
          hideLabel
          value={onlyBus.value ? "sum" : "all"}
          options={[
            ["sum", `In ${busTitle(bus?.id ?? "")} (${inBus.size})`],
            ["all", `All channels (${channels.length})`],
          ]}
          onValue={(v) => {
            onlyBus.value = v === "sum";
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
        <p class="soft">No channel yet. Add the first microphone, or start from a template under Setups.</p>
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
      <Explain about="What level, peak and send mean">
        <KitHelp />
      </Explain>
      <ConsoleSettings />
    </>
  );
};
