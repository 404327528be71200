const processor = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/**
 * Milliseconds of the processor that a piece of work takes: the fastest of some rounds. What else runs on the machine
 * takes the clock's time, and little of this.
 * @param {() => unknown} work
 */
export const fastest = (work, rounds = 7) => {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    const start = processor();
    work();
    least = Math.min(least, processor() - start);
  }
  return least;
};

/**
 * A figure for a table; fails the bench where it is over its limit.
 * @param {string} what
 * @param {number} ms
 * @param {number} most
 */
export const held = (what, ms, most) => {
  if (ms <= most) return ms.toFixed(1);
  console.log(`TOO SLOW: ${what}, ${ms.toFixed(1)} ms of ${most.toFixed(1)}`);
  process.exitCode = 1;
  return `${ms.toFixed(1)} !`;
};
