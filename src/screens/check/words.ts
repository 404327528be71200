import { kitPieceName } from "../../core/model/kinds";
import type { Answer, Id } from "../../core/model/setup";
import { current } from "../../document/store";

/** The five answers as they stand on the buttons, with their keys 1–5. */
export const ANSWER_WORDS: readonly (readonly [answer: Answer, word: string])[] = [
  ["left", "Left"],
  ["middle", "Middle"],
  ["right", "Right"],
  ["nothing", "Nothing"],
  ["unclear", "Can’t place it"],
];

/** An answer inside a sentence. */
export const answerSaid = (answer: Answer): string =>
  ({
    left: "on the left",
    middle: "in the middle",
    right: "on the right",
    nothing: "not at all",
    unclear: "nowhere to point at",
  })[answer];

/** Name of a piece inside a sentence. */
export const pieceName = (id: Id): string =>
  kitPieceName(current.value.kit.pieces.find((p) => p.id === id) ?? { name: "", kind: "other" });
