import { type ReadonlySignal, signal } from "@preact/signals";

/** Work that a tap begins. */
export interface OneAtATime<A extends readonly unknown[]> {
  /** Begins it; does nothing while it is under way, so that a second tap does not do it twice. */
  readonly run: (...args: A) => Promise<void>;
  readonly isBusy: ReadonlySignal<boolean>;
}

/** Makes sure that a second tap does not begin again what the first one began. */
export const oneAtATime = <A extends readonly unknown[]>(
  work: (...args: A) => Promise<unknown>,
): OneAtATime<A> => {
  const isBusy = signal(false);
  const run = async (...args: A): Promise<void> => {
    if (isBusy.peek()) return;
    isBusy.value = true;
    try {
      await work(...args);
    } finally {
      isBusy.value = false;
    }
  };
  return { run, isBusy };
};
