import type { Sum } from "../../core/setup";
import type { Remedy } from "../../core/sum/remedy";
import { editSum, pullSends } from "../../document/commands/sums";
import { runWithWord } from "../act";
import { sourceName } from "../names";
import { db } from "./words";

const list = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

/** What restores the wanted margin; each with one tap and its undo. */
export const RemedyCard = ({ sum, remedy }: { sum: Sum; remedy: Remedy | null }) => {
  if (remedy === null) return null;
  const { trim, fewest, allSends } = remedy;
  const all = sum.sends.filter((s) => s.level !== null);
  return (
    <section class="card stack" aria-labelledby="remedy">
      <h2 id="remedy">{db(remedy.short)} dB short of the margin. What restores it:</h2>
      {trim ? (
        <button
          type="button"
          class={trim.enough ? "main" : ""}
          onClick={() =>
            runWithWord(editSum(sum.id, { trim: trim.to }), `${sum.name} trimmed to ${db(trim.to)} dB`)
          }
        >
          Trim {sum.name} to {db(trim.to)} dB ({db(trim.by)} down)
          {trim.enough ? "" : "; the sum itself stays short"}
        </button>
      ) : null}
      {fewest ? (
        <button type="button" onClick={() => runWithWord(pullSends(sum.id, fewest), "Sends pulled")}>
          Pull {list(fewest.map((p) => `${sourceName(p.source)} to ${db(p.to)} dB`))}
        </button>
      ) : null}
      <button
        type="button"
        onClick={() =>
          runWithWord(
            pullSends(
              sum.id,
              all.map((s) => ({ source: s.source, to: (s.level ?? 0) - allSends })),
            ),
            `All sends ${db(allSends)} dB down`,
          )
        }
      >
        Pull all {all.length} sends by {db(allSends)} dB
      </button>
      {trim && !trim.enough ? (
        <p class="small soft">The sum lies before its trim, so only lower sends help there.</p>
      ) : null}
    </section>
  );
};
