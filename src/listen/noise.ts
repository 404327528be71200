/** Numbers −1…1 that are the same in every run: a linear congruential generator with the constants of Numerical Recipes. */
export const noise = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
};
