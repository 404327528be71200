/** A value that is worked out at the first look and kept. */
export const once = <T>(make: () => T): (() => T) => {
  let made: { readonly it: T } | null = null;
  return () => {
    made ??= { it: make() };
    return made.it;
  };
};

/** A function that works each answer out once; for keys that are the same object. */
export const remembered = <K, V>(work: (key: K) => V): ((key: K) => V) => {
  const known = new Map<K, V>();
  return (key) => {
    const answer = known.get(key);
    if (answer !== undefined) return answer;
    const fresh = work(key);
    known.set(key, fresh);
    return fresh;
  };
};

/** An object whose values are each worked out when somebody first looks at them. */
export const lazily = <T extends object>(makers: { readonly [K in keyof T]: () => T[K] }): T => {
  const made = {} as T;
  for (const key of Object.keys(makers) as (keyof T)[])
    Object.defineProperty(made, key, { get: once(makers[key]), enumerable: true });
  return made;
};

const areSame = (a: readonly unknown[], b: readonly unknown[]): boolean => a.every((x, at) => x === b[at]);

/** Figures of one thing, and everything that they are made of. */
interface Known<T> {
  readonly of: readonly unknown[];
  readonly figures: T;
}

/** The figures of each of several things, by its id. */
export interface Lookup<T> {
  readonly get: (id: string) => T | undefined;
  /** What somebody has looked up. */
  readonly known: ReadonlyMap<string, Known<T>>;
}

/**
 * The figures of each thing, worked out when somebody first looks them up.
 * @param madeOf everything that they are made of
 * @param before as it was before something changed: what is made of the very same things is kept
 */
export const lookup = <K extends { readonly id: string }, T>(
  things: readonly K[],
  madeOf: (thing: K) => readonly unknown[],
  make: (thing: K) => T,
  before?: Lookup<T>,
): Lookup<T> => {
  const known = new Map<string, Known<T>>();
  // What was before is in no function: that would hold on to it, and it to what was before it.
  for (const thing of before ? things : []) {
    const was = before?.known.get(thing.id);
    if (was && areSame(was.of, madeOf(thing))) known.set(thing.id, was);
  }
  const get = (id: string): T | undefined => {
    const thing = things.find((t) => t.id === id);
    const its = known.get(id) ?? (thing && { of: madeOf(thing), figures: make(thing) });
    if (its) known.set(id, its);
    return its?.figures;
  };
  return { get, known };
};
