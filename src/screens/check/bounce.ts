/** Nobody answers twice within this, but a wet finger touches twice; ms. A design choice. */
const BOUNCE = 250;
let answered = Number.NEGATIVE_INFINITY;

/** Whether a touch comes so soon after the last that it is the same one; remembers it where it is not. */
export const isBounce = (): boolean => {
  const now = performance.now();
  if (now - answered < BOUNCE) return true;
  answered = now;
  return false;
};
