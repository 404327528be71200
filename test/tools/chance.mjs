/**
 * Numbers 0…1 that are the same in every run.
 * @param {number} seed a whole number
 * @returns {() => number}
 */
export const numbers = (seed) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
};

/**
 * Numbers −1…1 that are the same in every run.
 * @param {number} seed a whole number
 * @returns {() => number}
 */
export const noise = (seed) => {
  const next = numbers(seed);
  return () => 2 * next() - 1;
};
