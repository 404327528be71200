/**
 * The time of the next question of a check at the kit, 64 channels. Fails when one takes longer than it may.
 * Usage: node test/bench/question.mjs
 */
import { performance } from "node:perf_hooks";
import { bundle } from "../tools/bundle.mjs";

const { checkOf, crowd, decide, drummer, seeded } = await bundle("test/core/check/bench.ts");

/** Most that a question may take, ms. */
const MOST_MS = 5;

// A long check of many channels, each at a drum of its own.
const setup = crowd(64);
const check = checkOf(setup, drummer);
const hits = [];
const sideOf = (piece) => ["left", "middle", "right"][Math.floor((Number(piece.split(" ")[1]) * 3) / 64)];
const answerTo = ({ piece, action }) =>
  action === "balance-left" || action === "first-input"
    ? "left"
    : action === "balance-right"
      ? "right"
      : action === "mono"
        ? "middle"
        : sideOf(piece);
for (;;) {
  const decision = decide(check, hits);
  if (decision.kind !== "asking") break;
  const { piece, action } = decision.next;
  hits.push({ piece, answer: answerTo(decision.next), ...(action ? { action } : {}) });
}
// Answers that contradict each other: every drum in turn, at random, so that nothing is ever sure.
const ANSWERS = ["left", "middle", "right", "nothing", "unclear"];
const chance = seeded(5);
const contradictory = check.probes
  .slice(0, 40)
  .map(({ piece }) => ({ piece, answer: ANSWERS[Math.floor(chance() * ANSWERS.length)] }));
const time = (name, work, limit = Number.POSITIVE_INFINITY) => {
  const taken = Array.from({ length: 101 }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  }).sort((a, b) => a - b);
  const [fastest, median] = [taken[0], taken[50]];
  console.log(`${name}: fastest ${fastest.toFixed(2)} ms, median ${median.toFixed(2)} ms`);
  if (fastest > limit) {
    console.log(`MISSED: ${name}: fastest ${fastest.toFixed(2)} ms, allowed ${limit} ms`);
    process.exitCode = 1;
  }
};
console.log(`64 channels, ${check.candidates.length} candidates, ${check.probes.length} probes:`);
time("prepare the check, once", () => checkOf(setup, drummer));
for (const count of [0, 3, 10, 20, 40, hits.length - 1])
  time(`question after ${count} hits`, () => decide(check, hits.slice(0, count)), MOST_MS);
for (const count of [3, 10, 20, 40])
  time(
    `question after ${count} contradictory hits`,
    () => decide(check, contradictory.slice(0, count)),
    MOST_MS,
  );
