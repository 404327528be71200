import type { Usage } from "../../core/inputs/usage";
import { assignBus, assignChannel } from "../../document/commands/assign";
import { runOrSay } from "../act";
import { busTitle, channelTitle, full } from "../shown-names";

/** What has no input of its own, one tap from the first free one. */
export const Unplaced = ({ usage }: { usage: Usage }) => {
  const buses = [...new Set(usage.sidesWithout.map((l) => l.bus))];
  if (buses.length + usage.channelsWithout.length === 0) return null;
  return (
    <details class="card">
      <summary>Unassigned: {buses.length + usage.channelsWithout.length}</summary>
      <div class="row">
        {buses.map((id) => (
          <button type="button" key={id} onClick={() => runOrSay(assignBus(id), full("inputs"))}>
            Assign {busTitle(id)}
          </button>
        ))}
        {usage.channelsWithout.map((id) => (
          <button type="button" key={id} onClick={() => runOrSay(assignChannel(id), full("inputs"))}>
            Assign {channelTitle(id)}
          </button>
        ))}
      </div>
    </details>
  );
};
