import type { Usage } from "../../core/patch/usage";
import { placeSource, placeSum } from "../../document/commands/place";
import { runOrSay } from "../act";
import { full, sourceName, sumName } from "../names";

/** What has no slot of its own, one tap from the first free one. */
export const Unplaced = ({ usage }: { usage: Usage }) => {
  const sums = [...new Set(usage.legsWithout.map((l) => l.sum))];
  if (sums.length + usage.sourcesWithout.length === 0) return null;
  return (
    <details class="card">
      <summary>Without a slot: {sums.length + usage.sourcesWithout.length}</summary>
      <div class="row">
        {sums.map((id) => (
          <button type="button" key={id} onClick={() => runOrSay(placeSum(id), full("slots"))}>
            Place {sumName(id)}
          </button>
        ))}
        {usage.sourcesWithout.map((id) => (
          <button type="button" key={id} onClick={() => runOrSay(placeSource(id), full("slots"))}>
            Place {sourceName(id)}
          </button>
        ))}
      </div>
    </details>
  );
};
