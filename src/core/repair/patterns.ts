import type { Over } from "./hearing";

/** Numbers for patterns of voices, from 1 on, the same for equal ones; each is looked at once, as many options share it. */
export const numbering = (): ((over: Over) => number) => {
  const numbers = new Map<string, number>();
  const known = new WeakMap<Over, number>();
  return (over) => {
    const seen = known.get(over);
    if (seen !== undefined) return seen;
    let word = "";
    for (const is of over) word += is ? "1" : "0";
    const number = numbers.get(word) ?? numbers.size + 1;
    numbers.set(word, number);
    known.set(over, number);
    return number;
  };
};
