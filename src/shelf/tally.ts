const KEY = "hatside-setups";

/** How many setups are saved, noted apart from where they rest: a browser that drops what is damaged does so without a word. */
export interface ReadTally {
  /** 0 where nothing was noted. */
  readonly read: () => number;
  readonly note: (count: number) => void;
}

/** Noted in the browser's small storage; where it keeps nothing there is nothing to compare. */
export const browserTally: ReadTally = {
  read: () => {
    try {
      return Number(localStorage.getItem(KEY)) || 0;
    } catch {
      return 0;
    }
  },
  note: (count) => {
    try {
      localStorage.setItem(KEY, String(count));
    } catch {
      // Then a loss is not noticed.
    }
  },
};
