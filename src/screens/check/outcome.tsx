import type { Fault } from "../../core/check/faults";
import { putIntoSetup } from "../../core/check/found";
import { isPlanned, type Proof, type Verdict } from "../../core/check/judge";
import { formatPercent } from "../../core/lib/number";
import type { Listener } from "../../core/model/setup";
import type { Command } from "../../document/command";
import { replaceSetup } from "../../document/commands/apply";
import { endCheck, startCheck, undoAnswer } from "../../document/commands/check";
import { current, run } from "../../document/store";
import { formatCount } from "../../text/words";
import { Table } from "../../ui/table";
import { Stated } from "../../ui/verdict";
import { runWithWord } from "../act";
import { useKeys } from "./keys";
import { checkedListener, hits } from "./session";
import { answerSaid, pieceName } from "./words";

type Found = Extract<Verdict, { kind: "found" }>;
type Unknown = Extract<Verdict, { kind: "unknown" }>;

/** The setup as it was found to be; the check is over then, in one step to undo. */
const putIn = (listener: Listener, fault: Fault): Command => {
  const put = replaceSetup("put the found state in", (s) => putIntoSetup(s, listener, fault) ?? s);
  return { ...put, apply: (file) => endCheck().apply(put.apply(file)) };
};

const plannedHeadline = (others: number): string =>
  others === 0 ? "All as planned" : "All as planned, as far as ears can tell";

const headline = ([first, ...others]: readonly Fault[]): string => {
  const name = first?.name ?? "";
  if (others.length === 0) return name;
  return `${name}, or ${others.length === 1 ? "another thing that sounds" : `${others.length} others that sound`} alike`;
};

const Confirm = ({ proof, planned }: { proof: Proof; planned: boolean }) => (
  <p>
    To confirm, hit the {pieceName(proof.piece)}:{" "}
    {planned
      ? `it must be ${answerSaid(proof.planned)}.`
      : `as things are it is ${answerSaid(proof.now)}; once put right it must be ${answerSaid(proof.planned)}.`}
  </p>
);

/** One thing that it can be: what to do, and a button that puts it into the setup where the setup has words for it. */
const Suspected = ({ fault, listener, alone }: { fault: Fault; listener: Listener; alone: boolean }) => {
  const canPut = putIntoSetup(current.value, listener, fault) !== null;
  return (
    <li class="card stack">
      {alone ? null : <h2>{fault.name}</h2>}
      <p>{fault.remedy}</p>
      {canPut ? (
        <button
          type="button"
          aria-label={`Put into the setup: ${fault.name}`}
          onClick={() =>
            runWithWord(putIn(listener, fault), "The setup is now as found: Image and Patch show it")
          }
        >
          Put into the setup
        </button>
      ) : null}
    </li>
  );
};

/** The verdict of a check. */
export const Concluded = ({ judged }: { judged: Found | Unknown }) => {
  if (judged.kind === "unknown")
    return (
      <Stated tone="care" says="This fits no fault I know">
        It may be two faults at once. Nearest is: {judged.nearest.faults[0]?.name}.
      </Stated>
    );
  const { set, confidence } = judged.found;
  const planned = isPlanned(set);
  return (
    <Stated
      tone={planned ? "fine" : judged.sure ? "wrong" : "care"}
      says={planned ? plannedHeadline(set.faults.length - 1) : headline(set.faults)}
    >
      {formatPercent(confidence)} sure after {formatCount(hits.value.length, "hit")}
      {judged.sure ? "." : "; the hits ran out before it was sure."} A model of what ears answer, not a
      measurement.
    </Stated>
  );
};

const FoundView = ({ found, listener }: { found: Found; listener: Listener }) => {
  const { set } = found.found;
  const planned = isPlanned(set);
  const alone = set.faults.length === 1;
  return (
    <>
      {planned ? (
        <p>
          What is heard is what <a href="#image">Image</a> and <a href="#patch">Patch</a> say.
        </p>
      ) : null}
      {alone ? null : (
        <p>
          {planned ? "But the ears would not notice:" : "The ears cannot tell these apart. Look at each:"}
        </p>
      )}
      <ul class="stack" aria-label="What to do">
        {set.faults
          .filter((fault) => fault.kind !== "planned")
          .map((fault) => (
            <Suspected key={fault.id} fault={fault} listener={listener} alone={alone} />
          ))}
      </ul>
      {found.proof ? <Confirm proof={found.proof} planned={planned} /> : null}
      {planned ? null : <p>Mend it, then check again: two faults at once happen.</p>}
      {found.second ? (
        <p class="soft">
          Next likeliest, {formatPercent(found.second.confidence)}: {headline(found.second.set.faults)}.
        </p>
      ) : null}
    </>
  );
};

const UnknownView = ({ unknown }: { unknown: Unknown }) => (
  <>
    <Table caption="What was heard" heads={["Hit", "Heard"]}>
      <tbody>
        {unknown.heard.map((hit, at) => (
          <tr key={at}>
            <th scope="row">{pieceName(hit.piece)}</th>
            <td>{answerSaid(hit.answer)}</td>
          </tr>
        ))}
      </tbody>
    </Table>
    <p>Put right what you can see (plugs, links, mutes), then check again.</p>
  </>
);

/** What to do with a verdict. */
export const Outcome = ({ judged }: { judged: Found | Unknown }) => {
  useKeys();
  const listener = checkedListener.value;
  if (!listener) return null;
  return (
    <>
      {judged.kind === "found" ? (
        <FoundView found={judged} listener={listener} />
      ) : (
        <UnknownView unknown={judged} />
      )}
      <div class="row">
        <button type="button" class="main" onClick={() => run(startCheck(listener.id))}>
          Check again
        </button>
        <button type="button" disabled={hits.value.length === 0} onClick={() => run(undoAnswer())}>
          Take the last answer back
        </button>
        <button type="button" onClick={() => run(endCheck())}>
          Done
        </button>
      </div>
    </>
  );
};
