import { useEffect, useRef, useState } from "preact/hooks";

const TURN_MS = 420;

const still = (): boolean => matchMedia("(prefers-reduced-motion: reduce)").matches;

/**
 * Positions that glide to their new place when `turn` changes (a swap turns the threads over),
 * and follow at once when only the positions change (a drag). No motion with reduced motion.
 */
export const useTurning = (positions: readonly number[], turn: string): readonly number[] => {
  const last = useRef({ turn, positions });
  const from = useRef(positions);
  const [share, setShare] = useState(1);
  if (last.current.turn !== turn) from.current = last.current.positions;
  last.current = { turn, positions };
  useEffect(() => {
    if (still() || from.current.length !== positions.length || from.current === positions) return;
    const begun = performance.now();
    let frame = 0;
    const step = (now: number) => {
      const t = Math.min(1, (now - begun) / TURN_MS);
      setShare(t * t * (3 - 2 * t));
      if (t < 1) frame = requestAnimationFrame(step);
    };
    setShare(0);
    frame = requestAnimationFrame(step);
    return () => {
      cancelAnimationFrame(frame);
      setShare(1);
    };
  }, [turn]);
  if (share === 1 || from.current.length !== positions.length) return positions;
  return positions.map((p, i) => {
    const start = from.current[i] ?? p;
    return start + (p - start) * share;
  });
};
