import { ANSWERS, kitPieceName } from "../../core/model/kinds";
import type { Answer, Id } from "../../core/model/setup";
import { current } from "../../document/store";
import { ANSWER_TEXT } from "../../text/check";

/** The answers as they stand on the buttons, counted from 1 by their keys. */
export const ANSWER_WORDS: readonly (readonly [answer: Answer, word: string])[] = ANSWERS.map((answer) => [
  answer,
  ANSWER_TEXT[answer].button,
]);

/** An answer inside a sentence. */
export const answerSaid = (answer: Answer): string => ANSWER_TEXT[answer].said;

/** Name of a piece inside a sentence. */
export const pieceName = (id: Id): string =>
  kitPieceName(current.value.kit.pieces.find((p) => p.id === id) ?? { name: "", kind: "other" });
