import type { HeardSuspect, HearingVerdict } from "../../core/hear/heard";
import { recordHeard } from "../../core/hear/record";
import { formatPercent } from "../../core/lib/number";
import type { Listener } from "../../core/model/setup";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { type CheckNames, formatHeadline } from "../../text/check";
import { describeHeardFault } from "../../text/hear-faults";
import { tickUnless } from "../../text/statement";
import { formatCount } from "../../text/words";
import { Stated } from "../../ui/verdict";
import { runWithWord } from "../act";
import { FaultCard, RECORDED } from "../check/fault-card";
import { endHearing, heardDrums } from "./hearing";

/** A verdict that ends a check by input. */
export type Ended = Exclude<HearingVerdict, { kind: "asking" }>;

interface Of {
  readonly listener: Listener;
  readonly said: CheckNames;
}

const textOf = ({ listener, said }: Of, suspect: HeardSuspect) =>
  describeHeardFault(current.value, listener, said, suspect);

/** The verdict in one line. */
export const HeardVerdict = ({ verdict, ...of }: Of & { verdict: Ended }) => {
  const after = `after ${formatCount(heardDrums.value.length, "hit")}`;
  if (verdict.kind === "unexplained")
    return (
      <Stated tone="care" says="This fits no fault known here">
        It may be two faults at once. Nearest: {textOf(of, verdict.nearest).name}.
      </Stated>
    );
  if (verdict.kind === "planned")
    return (
      <Stated
        tone={tickUnless(verdict.open.length > 0, "fine")}
        says={verdict.open.length > 0 ? "As planned, as far as these hits show" : "As planned"}
      >
        {formatPercent(verdict.confidence)} likely {after}, judged by level, silence and correlation of L and
        R.
      </Stated>
    );
  const { suspects, sure } = verdict;
  const chance = suspects.reduce((sum, { confidence }) => sum + confidence, 0);
  return (
    <Stated
      tone={sure ? "wrong" : "care"}
      says={formatHeadline(
        suspects.map((suspect) => textOf(of, suspect)),
        false,
      )}
    >
      {formatPercent(chance)} likely {after}
      {sure ? "." : "; the hits ran out before it was clear."}
    </Stated>
  );
};

const record = (listener: Listener, suspect: HeardSuspect): void => {
  runWithWord(
    replaceSetup("record as found", (setup) => recordHeard(setup, listener, suspect) ?? setup),
    RECORDED,
  );
  endHearing();
};

/** What to do with a verdict. */
export const HeardOutcome = ({ verdict, ...of }: Of & { verdict: Ended }) => {
  if (verdict.kind === "unexplained")
    return <p>Fix what you can see (plugs, links, mutes), then check again.</p>;
  if (verdict.kind === "planned")
    return (
      <>
        <p>
          What is measured is what <a href="#image">Image</a> and <a href="#patch">Patch</a> say.
        </p>
        {verdict.open.length > 0 ? (
          <>
            <p>Not ruled out, because no hit here would show it. Check these at the meters:</p>
            <ul>
              {verdict.open.map((suspect) => (
                <li key={suspect.id}>{textOf(of, suspect).name}</li>
              ))}
            </ul>
          </>
        ) : null}
      </>
    );
  const faults = verdict.suspects.filter(({ fault }) => fault !== "planned");
  const alone = faults.length === 1;
  return (
    <>
      {alone ? null : <p>No hit tells these apart. Check them in this order:</p>}
      <ul class="stack" aria-label="What to do">
        {faults.map((suspect) => (
          <FaultCard
            key={suspect.id}
            text={textOf(of, suspect)}
            alone={alone}
            onRecord={
              recordHeard(current.value, of.listener, suspect) ? () => record(of.listener, suspect) : null
            }
          />
        ))}
      </ul>
      <p>Fix it, then check again: there may be a second fault.</p>
    </>
  );
};
