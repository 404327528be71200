import { readFileSync, writeFileSync } from "node:fs";

const kilobytes = (process, key) =>
  Number(new RegExp(`^${key}:\\s*(\\d+) kB`, "m").exec(readFileSync(`/proc/${process}/status`, "utf8"))?.[1]);

/**
 * Begins to watch a process's resident memory. The kernel itself keeps the highest value (VmHWM), so that nothing is
 * missed between two looks; Linux only.
 * @param {number | "self"} process its number
 * @returns {() => number} the most since then over what it was at the beginning, bytes
 */
export const watchMemory = (process) => {
  // Writing 5 sets the highest value back to the present one.
  writeFileSync(`/proc/${process}/clear_refs`, "5");
  const before = kilobytes(process, "VmRSS");
  return () => Math.max(0, kilobytes(process, "VmHWM") - before) * 1024;
};
