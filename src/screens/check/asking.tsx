import { useEffect } from "preact/hooks";
import type { Answer, Id } from "../../core/setup";
import { answer, endCheck, takeBackAnswer } from "../../document/commands/check";
import { current, run } from "../../document/store";
import { buzz, useAwake } from "./awake";
import { hits, progress } from "./session";
import { ANSWER_WORDS } from "./words";

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && ["INPUT", "SELECT", "TEXTAREA"].includes(target.tagName);

/** How far it has come, as a thread that grows: no number to learn. */
const Progress = () => (
  <div
    class="progress"
    role="progressbar"
    aria-label="How sure it is already"
    aria-valuemin={0}
    aria-valuemax={100}
    aria-valuenow={Math.round(100 * progress.value)}
  >
    <i style={{ width: `${(100 * progress.value).toFixed(1)}%` }} />
  </div>
);

/** One question and five big buttons. */
export const Asking = ({ piece }: { piece: Id }) => {
  useAwake();
  const name = current.value.kit.pieces.find((p) => p.id === piece)?.name || "this piece";
  const say = (said: Answer) => {
    buzz();
    run(answer(piece, said));
  };
  useEffect(() => {
    const key = (e: KeyboardEvent) => {
      if (isTyping(e.target) || e.ctrlKey || e.metaKey || e.altKey) return;
      const word = ANSWER_WORDS[Number(e.key) - 1];
      if (word) say(word[0]);
      else if (e.key === "Backspace") run(takeBackAnswer());
      else return;
      e.preventDefault();
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  });
  return (
    <div class="asking">
      <div role="status">
        <p class="soft">{hits.value.length === 0 ? "First hit" : "Next hit"}</p>
        <h1 class="question">Hit the {name}. Where is it?</h1>
      </div>
      <Progress />
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
        <button type="button" disabled={hits.value.length === 0} onClick={() => run(takeBackAnswer())}>
          Take the last answer back
        </button>
        <button type="button" onClick={() => run(endCheck())}>
          Stop the check
        </button>
      </div>
    </div>
  );
};
