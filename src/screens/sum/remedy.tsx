import { sumCalled } from "../../core/called";
import { LOWEST_SEND, LOWEST_TRIM } from "../../core/lowest";
import { printEntry } from "../../core/number";
import type { Sum } from "../../core/setup";
import type { Pulls, Remedy } from "../../core/sum/remedy";
import { byHowMuch } from "../../core/sum/say";
import type { Db } from "../../core/units";
import { counted, listed, sentence } from "../../core/words";
import { editSum, pullSends } from "../../document/commands/sums";
import { Explain } from "../../pieces/explain";
import { lazy } from "../../pieces/lazy";
import { runWithWord } from "../act";
import { sourceName } from "../names";

const RemedyHelp = lazy(async () => (await import("./help")).RemedyHelp);

/** A level as the console's own steps make it. */
const stepped = (value: Db | null): string => (value === null ? "off" : `${printEntry(value)} dB`);

/** The trim of the whole sum, where the console goes that low. */
const Trim = ({ sum, trim }: { sum: Sum; trim: NonNullable<Remedy["trim"]> }) => {
  const name = sumCalled(sum);
  if (!trim.inRange)
    return (
      <p class="small soft">
        No trim reaches it: that would be {stepped(trim.to)}, and {stepped(LOWEST_TRIM)} is the lowest.
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

/** A pull of several sends, with one tap. */
const Pull = ({ sum, pulls, says, done }: { sum: Sum; pulls: Pulls; says: string; done: string }) => (
  <button type="button" onClick={() => runWithWord(pullSends(sum.id, pulls.sends), done)}>
    {says}
  </button>
);

/** What restores the wanted margin; each with one tap and its undo. */
export const RemedyCard = ({ sum, remedy }: { sum: Sum; remedy: Remedy | null }) => {
  if (remedy === null) return null;
  const { trim, fewest, all } = remedy;
  const [first, ...others] = all.sends;
  const whole =
    first && others.length === 0 ? sourceName(first.source) : `all ${counted(all.sends.length, "send")}`;
  const off = all.sends.filter((p) => p.to === null).map((p) => sourceName(p.source));
  return (
    <section class="card stack" aria-labelledby="remedy">
      <h2 id="remedy">{sentence(byHowMuch(remedy.short))} short of the margin. What restores it:</h2>
      {trim ? <Trim sum={sum} trim={trim} /> : null}
      {fewest ? (
        <Pull
          sum={sum}
          pulls={fewest}
          says={`Pull ${listed(fewest.sends.map((p) => `${sourceName(p.source)} to ${stepped(p.to)}`))}`}
          done={`${counted(fewest.sends.length, "send")} pulled by ${stepped(fewest.by)}`}
        />
      ) : null}
      {fewest && all.sends.length === fewest.sends.length ? null : (
        <Pull
          sum={sum}
          pulls={all}
          says={`Pull ${whole} by ${stepped(all.by)}`}
          done={`${sentence(whole)} ${stepped(all.by)} down`}
        />
      )}
      {off.length === 0 ? null : (
        <p class="small soft">
          All down turns {listed(off)} off: {stepped(LOWEST_SEND)} is the lowest level of a send.
        </p>
      )}
      <Explain about="How these are worked out">
        <RemedyHelp />
      </Explain>
    </section>
  );
};
