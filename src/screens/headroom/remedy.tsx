import type { Pulls, Remedy } from "../../core/headroom/remedy";
import { formatEntry } from "../../core/lib/number";
import { LOWEST_SEND, LOWEST_TRIM } from "../../core/model/limits";
import type { Bus } from "../../core/model/setup";
import type { Db } from "../../core/model/units";
import { editBus, lowerSends } from "../../document/commands/buses";
import { formatAmount } from "../../text/headroom";
import { busName } from "../../text/names";
import { capitalised, formatCount, formatList } from "../../text/words";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { runPlanChange } from "../act";
import { channelTitle } from "../shown-names";

const RemedyHelp = lazy(async () => (await import("./help")).RemedyHelp);

/** A level as the console's own steps make it. */
const stepped = (value: Db | null): string => (value === null ? "off" : `${formatEntry(value)} dB`);

/** The trim of the whole bus, where the console goes that low. */
const Trim = ({ bus, trim }: { bus: Bus; trim: NonNullable<Remedy["trim"]> }) => {
  const name = busName(bus);
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
          runPlanChange(editBus(bus.id, { trim: trim.to }), `${name} trimmed to ${stepped(trim.to)}`)
        }
      >
        Trim {name} to {stepped(trim.to)} ({stepped(trim.by)} down)
        {trim.enough ? "" : "; the bus itself stays under target"}
      </button>
      {trim.enough ? null : (
        <p class="small soft">The bus lies before its trim, so only lower sends help there.</p>
      )}
    </>
  );
};

/** A pull of several sends, with one tap. */
const Pull = ({ bus, pulls, says, done }: { bus: Bus; pulls: Pulls; says: string; done: string }) => (
  <button type="button" onClick={() => runPlanChange(lowerSends(bus.id, pulls.sends), done)}>
    {says}
  </button>
);

/** What gets back to the target headroom; each with one tap and its undo. */
export const RemedyCard = ({ bus, remedy }: { bus: Bus; remedy: Remedy | null }) => {
  if (remedy === null) return null;
  const { trim, fewest, all } = remedy;
  const [first, ...others] = all.sends;
  const whole =
    first && others.length === 0
      ? channelTitle(first.channel)
      : `all ${formatCount(all.sends.length, "send")}`;
  const off = all.sends.filter((p) => p.to === null).map((p) => channelTitle(p.channel));
  return (
    <section class="card stack" aria-labelledby="remedy">
      <h2 id="remedy">{capitalised(formatAmount(remedy.short))} under target. Ways to reach it:</h2>
      {trim ? <Trim bus={bus} trim={trim} /> : null}
      {fewest ? (
        <Pull
          bus={bus}
          pulls={fewest}
          says={`Pull ${formatList(fewest.sends.map((p) => `${channelTitle(p.channel)} to ${stepped(p.to)}`))}`}
          done={`${formatCount(fewest.sends.length, "send")} pulled by ${stepped(fewest.by)}`}
        />
      ) : null}
      {fewest && all.sends.length === fewest.sends.length ? null : (
        <Pull
          bus={bus}
          pulls={all}
          says={`Pull ${whole} by ${stepped(all.by)}`}
          done={`${capitalised(whole)} ${stepped(all.by)} down`}
        />
      )}
      {off.length === 0 ? null : (
        <p class="small soft">
          Pulling all of them turns {formatList(off)} off: {stepped(LOWEST_SEND)} is the lowest level of a
          send.
        </p>
      )}
      <Explain about="How these are worked out">
        <RemedyHelp />
      </Explain>
    </section>
  );
};
