import { useLayoutEffect } from "preact/hooks";
import type { Answer } from "../../core/model/setup";
import { undoAnswer } from "../../document/commands/check";
import { run } from "../../document/store";
import { ANSWER_WORDS } from "./words";

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && ["INPUT", "SELECT", "TEXTAREA"].includes(target.tagName);

/** Keys of a check: those from 1 on answer where there is a question, Backspace takes the last answer back. */
export const useKeys = (say?: (said: Answer) => void): void => {
  useLayoutEffect(() => {
    const key = (e: KeyboardEvent) => {
      if (isTyping(e.target) || e.ctrlKey || e.metaKey || e.altKey || e.repeat) return;
      const word = ANSWER_WORDS[Number(e.key) - 1];
      if (word && say) say(word[0]);
      else if (e.key === "Backspace") run(undoAnswer());
      else return;
      e.preventDefault();
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  });
};
