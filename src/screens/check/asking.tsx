import type { Answer, Id } from "../../core/model/setup";
import { answer, endCheck, undoAnswer } from "../../document/commands/check";
import { run } from "../../document/store";
import { listenerName } from "../../text/names";
import { capitalised } from "../../text/words";
import { Progress } from "../../ui/progress";
import { buzz, useAwake } from "./awake";
import { useKeys } from "./keys";
import { checkedListener, hits, progress } from "./session";
import { ANSWER_WORDS, pieceName } from "./words";

/** Nobody hits and answers twice within this, but a wet finger touches twice; ms. A design choice. */
const BOUNCE = 250;
let answered = Number.NEGATIVE_INFINITY;

/** What to hit, and who says where it is. */
export const Question = ({ piece }: { piece: Id }) => (
  <>
    <p class="soft">
      {hits.value.length === 0 ? "First hit" : "Next hit"}. {capitalised(listenerName(checkedListener.value))}{" "}
      says where: own left, own right.
    </p>
    <h1 class="question">Hit the {pieceName(piece)}. Where is it?</h1>
  </>
);

/** Five big buttons for the answer. */
export const Asking = ({ piece }: { piece: Id }) => {
  useAwake();
  const say = (said: Answer) => {
    const now = performance.now();
    if (now - answered < BOUNCE) return;
    answered = now;
    buzz();
    run(answer(piece, said));
  };
  useKeys(say);
  return (
    <>
      <Progress label="How sure it is already" share={progress.value} />
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
          Take back
        </button>
        <button type="button" onClick={() => run(endCheck())}>
          Stop the check
        </button>
      </div>
    </>
  );
};
