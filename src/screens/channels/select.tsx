import type { Channel } from "../../core/model/setup";
import { current } from "../../document/store";
import { formatCount } from "../../text/words";
import { Verdict } from "../../ui/verdict";
import { Bulk } from "../bulk/bulk";
import { bulkActions } from "./bulk-actions";

/** Several channels of the list selected, to be set together. */
export const SelectChannels = (props: { channels: readonly Channel[]; onDone: () => void }) => (
  <>
    <Verdict tone="care" says={`Select from ${formatCount(props.channels.length, "channel")}`}>
      Then choose what to set, and to what. It is one step of undo.
    </Verdict>
    <Bulk channels={props.channels} actions={bulkActions(current.value)} onDone={props.onDone} />
  </>
);
