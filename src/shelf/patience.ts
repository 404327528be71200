import { computed, type ReadonlySignal, signal } from "@preact/signals-core";

/** After so long it is said that the browser's storage has not answered yet, ms. */
export const TELL_AFTER = 2000;
/** After so long no answer is waited for any more, ms: a phone that reads a hundred setups after a rest takes less. */
export const GIVE_UP_AFTER = 10_000;

/** What was asked longer than `TELL_AFTER` ago and has not been answered. */
const late = signal(0);

/** Whether the browser's storage has kept somebody waiting for 2 s, and still does. */
export const isStorageSlow: ReadonlySignal<boolean> = computed(() => late.value > 0);

/** Storage gave no answer in time. */
export class Unanswered extends Error {
  constructor() {
    super("the browser’s storage does not answer");
  }
}

/**
 * What storage was asked, with an end to the waiting.
 * @param giveUp called when the answer is not waited for any more: takes back what was asked
 */
export const patiently = <T>(work: Promise<T>, giveUp: () => void): Promise<T> => {
  let isLate = false;
  let given: ReturnType<typeof setTimeout>;
  const told = setTimeout(() => {
    isLate = true;
    late.value += 1;
  }, TELL_AFTER);
  const tooLate = new Promise<never>((_, reject) => {
    given = setTimeout(() => {
      reject(new Unanswered());
      giveUp();
    }, GIVE_UP_AFTER);
  });
  return Promise.race([work, tooLate]).finally(() => {
    clearTimeout(told);
    clearTimeout(given);
    if (isLate) late.value -= 1;
  });
};
