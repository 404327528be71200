import type { Action, Answer, Hit, Id } from "../../core/model/setup";
import { amend } from "../amend";
import { batch, type Command, step } from "../command";
import { LIMITS } from "../limits";
import { lineKey } from "../line-place";
import { mend } from "../mend";
import type { SetupFile, Stamp } from "../schema";
import { lineSubject, NOBODY, withWords } from "../tick-log";

const withHits = (file: SetupFile, change: (hits: readonly Hit[]) => readonly Hit[]): SetupFile =>
  file.check ? mend(amend(file, { check: amend(file.check, { hits: change(file.check.hits) }) })) : file;

/** Begins a check at the kit for a listener; one that was under way is over. */
export const startCheck = (listener: Id): Command =>
  step("start check", (file) =>
    file.listeners.some((l) => l.id === listener) ? { ...file, check: { listener, hits: [] } } : file,
  );

/**
 * What was said of a hit. Nothing happens when no check is under way, or beyond `LIMITS.hits`.
 * @param action what was done for the hit; null is nothing
 */
export const answer = (piece: Id, said: Answer, action: Action | null = null): Command =>
  step("answer", (file) =>
    withHits(file, (hits) =>
      hits.length < LIMITS.hits
        ? [...hits, { piece, answer: said, ...(action === null ? {} : { action }) }]
        : hits,
    ),
  );

/** Nobody can do this here: the check goes on without it. */
export const declineAction = (action: Action): Command =>
  step("skip action", (file) => {
    const { check } = file;
    if (!check || check.declined?.includes(action)) return file;
    return { ...file, check: { ...check, declined: [...(check.declined ?? []), action] } };
  });

/** Takes the last answer back. */
export const undoAnswer = (): Command =>
  step("remove answer", (file) => withHits(file, (hits) => (hits.length > 0 ? hits.slice(0, -1) : hits)));

/** Ends the check at the kit; its answers are gone. */
export const endCheck = (): Command => step("stop check", (file) => amend(file, { check: null }));

/**
 * Ticks an input on the line check: heard or not; null takes the tick off. A free input and a listener who is not there have none.
 * @param stamp who and when; without one it is only ticked, unless somebody said something before
 * @param listener at whose mixer; null is anywhere
 */
export const tickInput = (
  index: number,
  heard: boolean | null,
  stamp: Stamp = NOBODY,
  listener: Id | null = null,
): Command =>
  step("line check", (file) => {
    const place = { index, listener };
    const about = lineSubject(file, place);
    const isThere = listener === null || file.listeners.some(({ id }) => id === listener);
    if (!about || !isThere || (file.lineCheck[lineKey(place)] ?? null) === heard) return file;
    return withWords(file, [{ ...about, said: heard, ...stamp }]);
  });

/** Takes the ticks of these inputs, by index from 0, off the line check at one place. */
export const clearTicks = (
  indexes: readonly number[],
  stamp: Stamp = NOBODY,
  listener: Id | null = null,
): Command =>
  batch(
    "clear line check",
    indexes.map((index) => tickInput(index, null, stamp, listener)),
  );
