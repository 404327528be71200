import type { Probe } from "../../core/check/check";
import type { Action, Answer } from "../../core/model/setup";
import { answer, declineAction, endCheck, undoAnswer } from "../../document/commands/check";
import { run } from "../../document/store";
import { describeAction } from "../../text/check";
import { listenerName } from "../../text/names";
import { capitalised } from "../../text/words";
import { Progress } from "../../ui/progress";
import { buzz, useAwake } from "./awake";
import { isBounce } from "./bounce";
import { useKeys } from "./keys";
import { checkedListener, hits, names, progress } from "./session";
import { ANSWER_WORDS, pieceName } from "./words";

/** What is to be done before the hit, and what of the last hit is to be set back. */
const Before = ({ action }: { action: Action | null }) => {
  const was = hits.value.at(-1)?.action ?? null;
  const said = names.value;
  if (!said || (action === null && was === null)) return null;
  return (
    <div class="notice warn stack">
      {was !== null && was !== action ? <p>{describeAction(said, was).after}</p> : null}
      {action !== null ? (
        <p>
          {was === action ? "Still: " : "First: "}
          {describeAction(said, action).before}
        </p>
      ) : null}
    </div>
  );
};

/** What to hit, and who says where it is. */
export const Question = ({ probe }: { probe: Probe }) => (
  <>
    <p class="soft">
      {hits.value.length === 0 ? "First hit" : "Next hit"}. {capitalised(listenerName(checkedListener.value))}{" "}
      says where: their own left or right.
    </p>
    <Before action={probe.action} />
    <h1 class="question">Hit the {pieceName(probe.piece)}. Where is it?</h1>
  </>
);

/** A big button for each answer. */
export const Asking = ({ probe }: { probe: Probe }) => {
  useAwake();
  const { action } = probe;
  const say = (said: Answer) => {
    if (isBounce()) return;
    buzz();
    run(answer(probe.piece, said, action));
  };
  useKeys(say);
  return (
    <>
      <Progress label="How sure so far" share={progress.value} />
      <div class="answers">
        {ANSWER_WORDS.map(([said, word], at) => (
          <button type="button" key={said} class={`answer ${said}`} onClick={() => say(said)}>
            {word}
            <kbd class="soft small" aria-hidden="true">
              {at + 1}
            </kbd>
          </button>
        ))}
      </div>
      <div class="row apart">
        <button type="button" disabled={hits.value.length === 0} onClick={() => run(undoAnswer())}>
          Undo answer
        </button>
        {action !== null ? (
          <button type="button" onClick={() => run(declineAction(action))}>
            Can’t do that
          </button>
        ) : null}
        <button type="button" onClick={() => run(endCheck())}>
          Stop
        </button>
      </div>
    </>
  );
};
