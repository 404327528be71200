/** Where things lie by key. All of it may fail: full, refused, gone. */
export interface Cupboard {
  /** Everything that lies in it. */
  readonly all: () => Promise<ReadonlyMap<string, unknown>>;
  /** What lies under a key; undefined: nothing. */
  readonly get: (key: string) => Promise<unknown>;
  /**
   * Changes one thing in one go: nobody else can change it in between, and what is changed first is done first.
   * @param change gets what lies there (undefined: nothing) and returns what shall (undefined: nothing); it must not wait
   * @param guess taken for what lies there, without asking: for a page that is being closed, which hears no answer any more
   * @returns once the change is safe
   */
  readonly update: (key: string, change: (was: unknown) => unknown, guess?: unknown) => Promise<void>;
}

/** A cupboard that lasts as long as the page. */
export const memoryCupboard = (): Cupboard => {
  const things = new Map<string, unknown>();
  return {
    all: async () => new Map(things),
    get: async (key) => things.get(key),
    update: async (key, change) => {
      const next = change(things.get(key));
      if (next === undefined) things.delete(key);
      else things.set(key, next);
    },
  };
};
