import { type Cupboard, memoryCupboard } from "../../src/shelf/cupboard";

/** A cupboard that fails when told to, and counts what was written. */
export interface ShakyCupboard extends Cupboard {
  /** Every change fails with this until it is null. */
  fails: Error | null;
  /** Keys in the order in which they were written. */
  readonly written: string[];
  /** Changes wait for this before they are safe. */
  hold: Promise<void>;
  /** Changes wait from now on, until what is returned is called. */
  readonly stall: () => () => void;
}

/** A cupboard in memory for tests; two shelves may share one as two tabs do. */
export const shakyCupboard = (): ShakyCupboard => {
  const inner = memoryCupboard();
  const cupboard: ShakyCupboard = {
    ...inner,
    fails: null,
    written: [],
    hold: Promise.resolve(),
    stall: () => {
      let release: () => void = () => {};
      cupboard.hold = new Promise((resolve) => {
        release = resolve;
      });
      return release;
    },
    update: async (key, change, guess) => {
      if (cupboard.fails) throw cupboard.fails;
      const safe = inner.update(key, (was) => change(guess ?? was));
      cupboard.written.push(key);
      await cupboard.hold;
      return safe;
    },
  };
  return cupboard;
};

/** The error of a full disk, as browsers name it. */
export const full = (): Error => new DOMException("no room", "QuotaExceededError");
