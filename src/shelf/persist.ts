import { type ReadonlySignal, signal } from "@preact/signals-core";

const answer = signal<boolean | null>(null);

/** Whether the browser promised to keep the setups when space is short; null before it was asked. */
export const isKept: ReadonlySignal<boolean | null> = answer;

let asked = false;

/**
 * Asks the browser once to keep the setups when space is short; some browsers ask the user. To be called when
 * something of the user's own was saved for the first time: before that there is nothing to keep.
 */
export const askToKeep = async (): Promise<void> => {
  if (asked) return;
  asked = true;
  // There is no storage to ask where the page did not come over a secure connection: that is a no too.
  const ask = async (): Promise<boolean> =>
    (await navigator.storage.persisted()) || (await navigator.storage.persist());
  answer.value = await ask().catch(() => false);
};
