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
