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
