import { printEntry } from "../../core/number";
import { counted, listed } from "../../core/patch/words";
import type { Sum } from "../../core/setup";
import type { Remedy } from "../../core/sum/remedy";
import type { Db } from "../../core/units";
import { editSum, pullSends } from "../../document/commands/sums";
import { RANGES } from "../../document/limits";
import { runWithWord } from "../act";
import { sourceName } from "../names";
import { db } from "./words";

/** A level as the console's own steps make it. */
const stepped = (value: Db): string => `${printEntry(value)} dB`;

/** The trim of the whole sum, where the console goes that low. */
const Trim = ({ sum, trim }: { sum: Sum; trim: NonNullable<Remedy["trim"]> }) => {
  const name = sum.name || "the sum";
  if (trim.to < RANGES.trim.min)
    return (
      <p class="small soft">
        No trim reaches it: that would be {stepped(trim.to)}, and {stepped(RANGES.trim.min)} is the lowest.
      </p>
    );
  return (
    <>
      <button
        type="button"
        class={trim.enough ? "main" : ""}
        onClick={() =>
          runWithWord(editSum(sum.id, { trim: trim.to }), `${name} trimmed to ${stepped(trim.to)}`)
        }
      >
        Trim {name} to {stepped(trim.to)} ({stepped(trim.by)} down)
        {trim.enough ? "" : "; the sum itself stays short"}
      </button>
      {trim.enough ? null : (
        <p class="small soft">The sum lies before its trim, so only lower sends help there.</p>
      )}
    </>
  );
};

/** What restores the wanted margin; each with one tap and its undo. */
export const RemedyCard = ({ sum, remedy }: { sum: Sum; remedy: Remedy | null }) => {
  if (remedy === null) return null;
  const { trim, fewest, allSends } = remedy;
  const short = db(remedy.short);
  // A send at the very bottom of its range cannot go lower and is far below what counts.
  const lower = (level: Db): Db => Math.max(RANGES.send.min, level - allSends);
  const all = sum.sends.flatMap(({ source, level }) =>
    level === null ? [] : [{ source, to: lower(level) }],
  );
  return (
    <section class="card stack" aria-labelledby="remedy">
      <h2 id="remedy">{short === "0.0" ? "Just" : `${short} dB`} short of the margin. What restores it:</h2>
      {trim ? <Trim sum={sum} trim={trim} /> : null}
      {fewest ? (
        <button
          type="button"
          onClick={() =>
            runWithWord(
              pullSends(sum.id, fewest),
              `${counted(fewest.length, "send")} pulled by ${stepped(fewest[0]?.by ?? 0)}`,
            )
          }
        >
          Pull {listed(fewest.map((p) => `${sourceName(p.source)} to ${stepped(p.to)}`))}
        </button>
      ) : null}
      {fewest && all.length === fewest.length ? null : (
        <button
          type="button"
          onClick={() => runWithWord(pullSends(sum.id, all), `All sends ${stepped(allSends)} down`)}
        >
          Pull all {counted(all.length, "send")} by {stepped(allSends)}
        </button>
      )}
    </section>
  );
};
