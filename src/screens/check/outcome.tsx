import { putIntoSetup } from "../../core/check/found";
import { isPlanned, type Verdict as Judged, type Proof } from "../../core/check/judge";
import { printNumber } from "../../core/number";
import type { Id, Listener } from "../../core/setup";
import { replaceSetup } from "../../document/commands/apply";
import { endCheck, startCheck, takeBackAnswer } from "../../document/commands/check";
import { current, run } from "../../document/store";
import { Verdict } from "../../pieces/verdict";
import { runWithWord } from "../act";
import { checkedListener, hits } from "./session";
import { heardAs } from "./words";

type Found = Extract<Judged, { kind: "found" }>;
type Unknown = Extract<Judged, { kind: "unknown" }>;

const pieceName = (id: Id): string => current.value.kit.pieces.find((p) => p.id === id)?.name || "the piece";

const percent = (share: number): string => `${printNumber(100 * share, 0)} %`;

const Confirm = ({ proof, planned }: { proof: Proof; planned: boolean }) => (
  <p>
    To confirm, hit the {pieceName(proof.piece)}:{" "}
    {planned
      ? `it must be ${heardAs(proof.planned)}.`
      : `as things are it is ${heardAs(proof.now)}; once put right it must be ${heardAs(proof.planned)}.`}
  </p>
);

/** Buttons that put a found state into the setup: one for each fault of the set that the setup has words for. */
const PutIn = ({ found, listener }: { found: Found; listener: Listener }) => {
  const { faults } = found.found.set;
  const setup = current.value;
  return (
    <>
      {faults.map((fault) => {
        if (fault.kind === "planned" || putIntoSetup(setup, listener, fault) === null) return null;
        return (
          <button
            type="button"
            key={fault.id}
            onClick={() =>
              runWithWord(
                replaceSetup("put the found state in", (s) => putIntoSetup(s, listener, fault) ?? s),
                "The setup is now as found",
              )
            }
          >
            Put into the setup: {fault.name}
          </button>
        );
      })}
    </>
  );
};

const FoundView = ({ found, listener }: { found: Found; listener: Listener }) => {
  const { set, confidence } = found.found;
  const planned = isPlanned(set);
  const [first, ...others] = set.faults;
  return (
    <>
      <Verdict
        tone={planned ? "fine" : found.sure ? "wrong" : "care"}
        says={planned ? "All as planned" : (first?.name ?? "")}
      >
        {percent(confidence)} sure after {hits.value.length} hits
        {found.sure ? "." : "; the hits ran out before it was sure."} A model of what ears answer, not a
        measurement.
      </Verdict>
      {others.length > 0 ? (
        <div class="notice">
          <p>The ears cannot tell this from:</p>
          <ul>
            {others.map((f) => (
              <li key={f.id}>{f.name}</li>
            ))}
          </ul>
        </div>
      ) : null}
      <section class="stack" aria-label="What to do">
        {found.remedies.map((remedy) => (
          <p key={remedy}>{remedy}</p>
        ))}
        {found.proof ? <Confirm proof={found.proof} planned={planned} /> : null}
        {found.second ? (
          <p class="soft">
            Next likeliest, {percent(found.second.confidence)}: {found.second.set.faults[0]?.name}.
          </p>
        ) : null}
      </section>
      <PutIn found={found} listener={listener} />
    </>
  );
};

const UnknownView = ({ unknown }: { unknown: Unknown }) => (
  <>
    <Verdict tone="care" says="This fits no fault I know">
      It may be two faults at once. Nearest is: {unknown.nearest.faults[0]?.name}.
    </Verdict>
    <table>
      <caption>What was heard</caption>
      <thead>
        <tr>
          <th scope="col">Hit</th>
          <th scope="col">Heard</th>
        </tr>
      </thead>
      <tbody>
        {unknown.heard.map((hit, at) => (
          <tr key={at}>
            <th scope="row">{pieceName(hit.piece)}</th>
            <td>{heardAs(hit.answer)}</td>
          </tr>
        ))}
      </tbody>
    </table>
    <p>Put right what you can see (plugs, links, mutes), then check again.</p>
  </>
);

/** The verdict of a check and what to do with it. */
export const Outcome = ({ judged }: { judged: Found | Unknown }) => {
  const listener = checkedListener.value;
  if (!listener) return null;
  return (
    <div class="stack">
      {judged.kind === "found" ? (
        <FoundView found={judged} listener={listener} />
      ) : (
        <UnknownView unknown={judged} />
      )}
      <div class="row">
        <button type="button" class="main" onClick={() => run(startCheck(listener.id))}>
          Check again
        </button>
        <button type="button" disabled={hits.value.length === 0} onClick={() => run(takeBackAnswer())}>
          Take the last answer back
        </button>
        <button type="button" onClick={() => run(endCheck())}>
          Done
        </button>
      </div>
    </div>
  );
};
