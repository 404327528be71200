import { useComputed, useSignal } from "@preact/signals";
import { channelsTyped } from "../../core/inputs/typed";
import { addChannels } from "../../document/commands/add-channels";
import { LIMITS } from "../../document/limits";
import { current } from "../../document/store";
import { describeTyped, describeTypedNote } from "../../text/typed";
import { formatCount } from "../../text/words";
import { Tick } from "../../ui/choice";
import { Portion } from "../../ui/portion";
import { TextField } from "../../ui/text-field";
import { runOrSay } from "../act";
import { busTitle, full } from "../shown-names";
import { chosenBus } from "../state";

/** As long as the longest list that fits: a number, a name and a line end each. */
const MOST_TYPED = LIMITS.channels * (LIMITS.name + 10);

/** Channels as people write them, one a line; what was understood stands under it before anything is added. */
export const AddLines = () => {
  const text = useSignal("");
  const isSent = useSignal(true);
  const typed = useComputed(() => channelsTyped(text.value, current.value, LIMITS)).value;
  const { channels, wrong, notes } = typed;
  const bus = chosenBus.value;
  const add = () => {
    const into = bus && isSent.value ? bus.id : null;
    if (runOrSay(addChannels(channels, into), full("channels"))) text.value = "";
  };
  return (
    <>
      <TextField
        label="One channel per line"
        placeholder={"12 Bass DI\n13-14 Keys\nSnr Top\nOH SR"}
        most={MOST_TYPED}
        lines={6}
        value={text.value}
        onValue={(lines) => {
          text.value = lines;
        }}
      />
      {wrong.length + notes.length > 0 ? (
        <div class={`notice small${wrong.length > 0 ? " bad" : ""}`} role="status">
          <Portion
            items={[...wrong, ...notes].map(describeTypedNote)}
            each={(says, at) => <li key={at}>{says}</li>}
            what="more"
          />
        </div>
      ) : null}
      {channels.length > 0 ? (
        <section class="stack" aria-label="Channels as read">
          <Portion
            items={channels}
            each={(channel, at) => (
              <li key={at} class="small">
                {describeTyped(current.value, channel)}
              </li>
            )}
            what="more"
          />
        </section>
      ) : null}
      {bus ? (
        <Tick
          label={`Send drums and percussion to ${busTitle(bus.id)}`}
          value={isSent.value}
          onValue={(on) => {
            isSent.value = on;
          }}
        />
      ) : null}
      <button type="button" class="main" disabled={channels.length === 0 || wrong.length > 0} onClick={add}>
        Add {formatCount(channels.length, "channel")}
      </button>
    </>
  );
};
