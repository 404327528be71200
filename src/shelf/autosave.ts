import { effect, type ReadonlySignal, type Signal, signal } from "@preact/signals-core";
import type { SetupFile } from "../document/schema";
import { current, readOnly } from "../document/store";
import { troubleOf } from "./trouble";

/** Whether what is on screen is safe. "unavailable": nothing can be kept here at all. */
export interface Saving {
  readonly state: "saved" | "saving" | "failed" | "unavailable";
  /** What is wrong, as the middle of a sentence. */
  readonly why?: string;
}

/** A change is handed to the cupboard at most so long after it was made, ms; moves of a drag in between go together. */
export const SAVE_AFTER = 100;
/** After a failure it is tried again by itself, ms. */
const RETRY_AFTER = 5000;

/** Keeps the open setup safe while it is edited. */
export interface Autosave {
  readonly saving: ReadonlySignal<Saving>;
  /** From now on changes are saved. What is open lies in the cupboard already; null: nothing of it does. */
  readonly begin: (file: SetupFile | null) => void;
  /** Saves now what is not safe yet; done when it is, or when it failed. */
  readonly flush: () => Promise<void>;
  /** The page goes: hands over what is not safe yet, without waiting for anything. */
  readonly handOver: () => void;
  /** Whether something on screen is not in the cupboard. */
  readonly isUnsaved: () => boolean;
  /** Nothing can be kept: said instead of "saved" from now on. */
  readonly giveUp: (why: string) => void;
}

/**
 * Watches the document and writes it. Writes nothing before `begin`, nor while another tab edits.
 * @param write puts a setup into the cupboard; resolves when it is safe. `isLast`: nobody hears of it any more
 */
export const createAutosave = (write: (file: SetupFile, isLast: boolean) => Promise<void>): Autosave => {
  const saving: Signal<Saving> = signal({ state: "saved" });
  /** What the cupboard was last given; null after a failure, undefined before anything was opened. */
  let given: SetupFile | null | undefined;
  let last: Promise<void> = Promise.resolve();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let hopeless: string | null = null;

  const atRest = (): Saving =>
    hopeless === null ? { state: "saved" } : { state: "unavailable", why: hopeless };
  const stop = (): void => {
    clearTimeout(timer);
    timer = undefined;
  };
  const later = (after: number): void => {
    timer ??= setTimeout(() => {
      timer = undefined;
      flush();
    }, after);
  };
  const save = (file: SetupFile, isLast: boolean): Promise<void> => {
    given = file;
    // A next try takes nothing back of what was said: only its success does.
    if (saving.peek().state === "saved") saving.value = { state: "saving" };
    const mine: Promise<void> = write(file, isLast).then(
      () => {
        if (last === mine) saving.value = atRest();
      },
      (error: unknown) => {
        // A later write is on its way and speaks for itself.
        if (last !== mine) return;
        given = null;
        saving.value = { state: "failed", why: troubleOf(error) };
        later(RETRY_AFTER);
      },
    );
    last = mine;
    return mine;
  };
  const flush = (): Promise<void> => {
    stop();
    const file = current.peek();
    return given === undefined || file === given || readOnly.peek() ? last : save(file, false);
  };
  const isUnsaved = (): boolean =>
    given !== undefined &&
    (given !== current.peek() || saving.peek().state === "saving" || saving.peek().state === "failed");
  const handOver = (): void => {
    stop();
    // Also what is under way: it waits for an answer that will not come. After a failure nothing is certain.
    if (isUnsaved() && !readOnly.peek()) save(current.peek(), given !== null);
  };
  effect(() => {
    const file = current.value;
    if (given === undefined || file === given || readOnly.value) return;
    // A change does not wait for the next try by itself.
    if (given === null) stop();
    later(SAVE_AFTER);
  });

  return {
    saving,
    begin: (file) => {
      stop();
      given = file;
      saving.value = atRest();
    },
    flush,
    handOver,
    isUnsaved,
    giveUp: (why) => {
      hopeless = why;
      saving.value = atRest();
    },
  };
};
