import type { Channel } from "../../core/model/setup";
import { current } from "../../document/store";
import { formatCount } from "../../text/words";
import { Bulk } from "../bulk/bulk";
import { bulkActions } from "./bulk-actions";

/** Several channels of the list selected, to be set together. */
export const SelectChannels = (props: { channels: readonly Channel[]; onDone: () => void }) => (
  <>
    <h1>Select from {formatCount(props.channels.length, "channel")}</h1>
    <p class="soft">Then choose what to set, and to what. Each change is one undo step.</p>
    <Bulk channels={props.channels} actions={bulkActions(current.value)} onDone={props.onDone} />
  </>
);
