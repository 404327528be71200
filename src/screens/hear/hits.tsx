import { useSignal } from "@preact/signals";
import type { HearingState } from "../../core/hear/heard";
import { busOf } from "../../core/mix/ear-gains";
import type { Listener } from "../../core/model/setup";
import { current } from "../../document/store";
import { checkNames, describeObstacle } from "../../text/check";
import { describeRefusal, formatSideDifference } from "../../text/hear-input";
import { busName, mixerName } from "../../text/names";
import { capitalised, formatCount } from "../../text/words";
import { Choice, Tick } from "../../ui/choice";
import { useAwake } from "../check/awake";
import { pieceName } from "../check/words";
import { DrumTable } from "./drum-table";
import {
  course,
  endHearing,
  heardDrums,
  heardListener,
  hearingState,
  isJudgeLost,
  nothingHeard,
  refusedHit,
  removeHit,
  startHearing,
} from "./hearing";
import { type Ended, HeardOutcome, HeardVerdict } from "./outcome";
import { ear, fault, fedFrom } from "./session";
import "../check/check.css";

/** Where the input is plugged in, and the start. */
export const BeginHits = ({ listener }: { listener: Listener }) => {
  const isFree = useSignal(false);
  const isNoPair = fault.value === "one-channel" || fault.value === "identical";
  return (
    <>
      <Choice
        label="The input is fed from"
        value={fedFrom.value}
        options={[
          ["mixer", mixerName(listener)],
          ["bus", `Outputs of ${busName(busOf(current.value, listener))}`],
        ]}
        onValue={(to) => {
          fedFrom.value = to;
        }}
      />
      <Tick
        label="Any order: one drum at a time, around the kit"
        value={isFree.value}
        onValue={(to) => {
          isFree.value = to;
        }}
      />
      <button
        type="button"
        class="main"
        disabled={isNoPair}
        onClick={() => {
          startHearing(listener.id, fedFrom.value, isFree.value);
          // The question stands at the top.
          scrollTo(0, 0);
        }}
      >
        Start the check
      </button>
    </>
  );
};

/** What the last hit came to, so that nobody has to look at the table. */
const lastHit = ({ attributed, drums }: HearingState): string => {
  const refused = refusedHit.value;
  if (refused && refused !== "early") return describeRefusal(refused);
  const heard = heardDrums.value;
  const last = heard.at(-1);
  const piece = attributed.at(-1) ?? null;
  if (!last) return "First hit.";
  if (attributed.length < heard.length) return "Heard.";
  if (piece === null) return "That hit fits more than one drum.";
  const name = capitalised(pieceName(piece));
  if (!last.hit) return `${name}: no signal.`;
  const off = drums.find((drum) => drum.piece === piece)?.asPlanned === false;
  return `${name}: ${formatSideDifference(last.hit.difference)}, ${off ? "not as planned" : "as planned"}.`;
};

const Question = ({ state, next }: { state: HearingState; next: string }) => (
  <>
    <p class="soft">{lastHit(state)}</p>
    {refusedHit.value === "early" ? <p class="soft">{describeRefusal("early")}</p> : null}
    <h1 class="question">
      {course.value?.isFree ? "Hit one drum at a time, in any order." : `Hit the ${pieceName(next)}.`}
    </h1>
    {ear.value.kind === "open" ? null : <p class="notice warn">The input is closed: open it below.</p>}
  </>
);

const RemoveHit = () => (
  <button type="button" disabled={heardDrums.value.length === 0} onClick={removeHit}>
    Remove last hit
  </button>
);

const Asking = () => (
  <div class="row apart">
    {course.value?.isFree ? null : (
      <button type="button" onClick={nothingHeard}>
        Hit, but no signal
      </button>
    )}
    <RemoveHit />
    <button type="button" onClick={endHearing}>
      Stop
    </button>
  </div>
);

/** What is asked or found, above the input. */
export const DrumHits = () => {
  useAwake();
  const state = hearingState.value;
  const listener = heardListener.value;
  if (!listener) return null;
  if (!state)
    return (
      <>
        <div role="status">
          <h1>{isJudgeLost.value ? "The check stopped: start it again" : "Preparing the check …"}</h1>
        </div>
        <Asking />
      </>
    );
  const said = checkNames(current.value, listener);
  if (typeof state === "string")
    return (
      <>
        <h1>Nothing to check</h1>
        <p class="notice warn" role="alert">
          {describeObstacle(said, state)}
        </p>
        <div class="row">
          <button type="button" onClick={endHearing}>
            OK
          </button>
        </div>
      </>
    );
  const { verdict } = state;
  const ended: Ended | null = verdict.kind === "asking" ? null : verdict;
  return (
    <>
      <div role="status">
        {verdict.kind === "asking" ? (
          <Question state={state} next={verdict.next} />
        ) : (
          <HeardVerdict verdict={verdict} listener={listener} said={said} />
        )}
      </div>
      {ended ? <HeardOutcome verdict={ended} listener={listener} said={said} /> : <Asking />}
      {ended ? <After listener={listener} /> : null}
    </>
  );
};

const After = ({ listener }: { listener: Listener }) => {
  const now = course.value;
  if (!now) return null;
  return (
    <div class="row">
      <button type="button" class="main" onClick={() => startHearing(listener.id, now.point, now.isFree)}>
        Check again
      </button>
      <RemoveHit />
      <button type="button" onClick={endHearing}>
        Done
      </button>
    </div>
  );
};

/** What was measured so far, drum by drum. */
export const HitsSoFar = () => {
  const state = hearingState.value;
  if (!state || typeof state === "string") return null;
  return (
    <section class="stack" aria-labelledby="heard-drums">
      <h2 id="heard-drums">As planned and as measured</h2>
      <DrumTable drums={state.drums} />
      {state.unknown > 0 ? (
        <p class="soft small">
          Not in the table: {formatCount(state.unknown, "hit")} that could be of more than one drum.
        </p>
      ) : null}
    </section>
  );
};
