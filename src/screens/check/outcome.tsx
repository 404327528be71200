import { recordAsFound } from "../../core/check/apply";
import { isPlanned } from "../../core/check/decide";
import type { Confirmation, Decision, Suspect } from "../../core/check/decision";
import { formatPercent } from "../../core/lib/number";
import type { Action, Listener } from "../../core/model/setup";
import type { Command } from "../../document/command";
import { replaceSetup } from "../../document/commands/apply";
import { endCheck, startCheck, undoAnswer } from "../../document/commands/check";
import { current, run } from "../../document/store";
import { type CheckNames, describeAction, describeFault, formatHeadline } from "../../text/check";
import { formatCount } from "../../text/words";
import { Table } from "../../ui/table";
import { Stated } from "../../ui/verdict";
import { runWithWord } from "../act";
import { FaultCard, RECORDED } from "./fault-card";
import { useKeys } from "./keys";
import { check, checkedListener, hits, names } from "./session";
import { answerSaid, pieceName } from "./words";

type Found = Extract<Decision, { kind: "found" }>;
type Unexplained = Extract<Decision, { kind: "unexplained" }>;

/** The plan as it was found to be; the check is over then, in one step to undo. */
const record = (listener: Listener, { candidate }: Suspect): Command => {
  const put = replaceSetup("record as found", (s) => recordAsFound(s, listener, candidate) ?? s);
  return { ...put, apply: (file) => endCheck().apply(put.apply(file)) };
};

const Confirm = ({ confirmation, planned }: { confirmation: Confirmation; planned: boolean }) => (
  <p>
    To confirm, hit the {pieceName(confirmation.probe.piece)}:{" "}
    {planned
      ? `it should be ${answerSaid(confirmation.planned)}.`
      : `now it is ${answerSaid(confirmation.now)}; once fixed it should be ${answerSaid(confirmation.planned)}.`}
  </p>
);

const Suspected = (props: { suspect: Suspect; listener: Listener; said: CheckNames; alone: boolean }) => {
  const { suspect, listener, said, alone } = props;
  const canRecord = recordAsFound(current.value, listener, suspect.candidate) !== null;
  return (
    <FaultCard
      text={describeFault(current.value, said, suspect.candidate)}
      alone={alone}
      onRecord={canRecord ? () => runWithWord(record(listener, suspect), RECORDED) : null}
    />
  );
};

/** The verdict of a check. */
export const Concluded = ({ decided }: { decided: Found | Unexplained }) => {
  const said = names.value;
  if (!said) return null;
  if (decided.kind === "unexplained")
    return (
      <Stated tone="care" says="This fits no known fault">
        It may be two faults at once. Nearest: {describeFault(current.value, said, decided.nearest).name}.
      </Stated>
    );
  const { suspects, confidence } = decided.found;
  const planned = isPlanned(decided.found);
  const texts = suspects.map(({ candidate }) => describeFault(current.value, said, candidate));
  const open = planned && suspects.length > 1;
  return (
    <Stated
      tone={planned && !open ? "fine" : planned || !decided.sure ? "care" : "wrong"}
      says={open ? "As planned, as far as ears can tell" : formatHeadline(texts, planned)}
    >
      {formatPercent(confidence)} likely after {formatCount(hits.value.length, "hit")}
      {decided.ranOut ? "; the hits ran out before it was clear." : "."} A model of how people answer, not a
      measurement.
    </Stated>
  );
};

/** Actions that would tell the named faults apart. */
const Telling = ({ telling, said }: { telling: readonly Action[]; said: CheckNames }) => (
  <div>
    <p>To tell them apart, do one of these and hit again:</p>
    <ul>
      {telling.map((action) => (
        <li key={action}>{describeAction(said, action).before}</li>
      ))}
    </ul>
  </div>
);

const FoundView = ({ found, listener, said }: { found: Found; listener: Listener; said: CheckNames }) => {
  const { suspects } = found.found;
  const planned = isPlanned(found.found);
  const faults = suspects.filter(({ candidate }) => candidate.fault !== "planned");
  const alone = suspects.length === 1;
  const unfindable = check.value?.unfindable ?? [];
  return (
    <>
      {planned ? (
        <p>
          What is heard is what <a href="#image">Image</a> and <a href="#patch">Patch</a> say.
        </p>
      ) : null}
      {alone ? null : (
        <p>
          {planned
            ? "Not ruled out, because this listener would not hear the difference:"
            : "Ears cannot tell these apart. Check them in this order:"}
        </p>
      )}
      <ul class="stack" aria-label="What to do">
        {faults.map((suspect) => (
          <Suspected
            key={suspect.candidate.id}
            suspect={suspect}
            listener={listener}
            said={said}
            alone={alone}
          />
        ))}
      </ul>
      {found.telling.length > 0 && !alone ? <Telling telling={found.telling} said={said} /> : null}
      {found.confirmation ? <Confirm confirmation={found.confirmation} planned={planned} /> : null}
      {planned ? null : <p>Fix it, then check again: there may be a second fault.</p>}
      {found.second ? (
        <p class="soft">
          Next likeliest, {formatPercent(found.second.confidence)}:{" "}
          {describeFault(current.value, said, found.second.candidate).name}.
        </p>
      ) : null}
      {planned && unfindable.length > 0 ? (
        <p class="soft small">
          No hit can show these:{" "}
          {unfindable.map((hypothesis) => describeFault(current.value, said, hypothesis).name).join("; ")}.
          Check them at the meters.
        </p>
      ) : null}
    </>
  );
};

const UnexplainedView = () => (
  <>
    <Table caption="What was heard" heads={["Hit", "Heard"]}>
      <tbody>
        {hits.value.map((hit, at) => (
          <tr key={at}>
            <th scope="row">{pieceName(hit.piece)}</th>
            <td>{answerSaid(hit.answer)}</td>
          </tr>
        ))}
      </tbody>
    </Table>
    <p>Fix what you can see (plugs, links, mutes), then check again.</p>
  </>
);

/** What to do with a verdict. */
export const CheckOutcome = ({ decided }: { decided: Found | Unexplained }) => {
  useKeys();
  const listener = checkedListener.value;
  const said = names.value;
  if (!listener || !said) return null;
  const last = hits.value.at(-1)?.action;
  return (
    <>
      {last ? <p class="notice warn">Set back: {describeAction(said, last).after}</p> : null}
      {decided.kind === "found" ? (
        <FoundView found={decided} listener={listener} said={said} />
      ) : (
        <UnexplainedView />
      )}
      <div class="row">
        <button type="button" class="main" onClick={() => run(startCheck(listener.id))}>
          Check again
        </button>
        <button type="button" disabled={hits.value.length === 0} onClick={() => run(undoAnswer())}>
          Undo answer
        </button>
        <button type="button" onClick={() => run(endCheck())}>
          Done
        </button>
      </div>
    </>
  );
};
