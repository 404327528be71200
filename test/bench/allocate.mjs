/*
 * Allocations of large shows: milliseconds of processor time, median of several, of the best plan and of everything that Decide shows at once.
 * Fails above the limits.
 * Run: node test/bench/allocate.mjs
 */
import { bundle } from "../tools/bundle.mjs";

const { allocate, bestPlan } = await bundle("src/core/allocate/plans.ts");

const ROUNDS = 7;
/** By channels and inputs, milliseconds for the best plan. */
const CASES = [
  { channels: 64, inputs: 16, limit: 100 },
  { channels: 48, inputs: 40, limit: 1000 },
  { channels: 128, inputs: 64, limit: 1000 },
  // Mono feeds pinned to odd inputs break neighbours, which then have to be counted too.
  { channels: 128, inputs: 64, broken: 8, limit: 1000 },
];
const KINDS = [
  "kick",
  "snare",
  "drum",
  "drum",
  "drum",
  "drum",
  "percussion",
  "bass",
  "guitar",
  "guitar",
  "keys",
  "horn",
]
  .concat(["horn", "strings", "lead-vocal", "vocal", "vocal", "vocal", "playback", "click", "talkback"])
  .concat(["speech", "video", "audience", "effects", "other"]);
const WIDE = new Set(["keys", "playback", "video"]);
const MUSICIANS = 8;

const show = ({ channels, inputs, broken = 0 }) => ({
  inputs,
  reserved: [],
  busPins: [],
  swapped: [],
  musicians: Array.from({ length: MUSICIANS }, (_, i) => ({
    id: `m${i}`,
    name: `Musician ${i}`,
    mono: false,
  })),
  channels: Array.from({ length: channels }, (_, i) => {
    const kind = KINDS[i % KINDS.length];
    const pin = i < broken ? { as: "own", width: 1, input: 2 * i + 1 } : null;
    return {
      id: `c${i}`,
      name: `${kind} ${i}`,
      kind,
      width: WIDE.has(kind) ? 2 : 1,
      keepsSides: i % 17 === 0,
      number: i + 1,
      section: kind === "horn" ? `Horns ${i % 3}` : null,
      instrument: kind === "kick" ? `Kick ${Math.floor(i / 52)}` : null,
      player: `m${i % MUSICIANS}`,
      wantedBy: [`m${(i * 3) % MUSICIANS}`],
      currentInputs: i % 2 === 0 && i < inputs ? [((i * 7) % inputs) + 1] : [],
      current: i % 2 === 0 && i < inputs ? { as: "own", width: 1 } : null,
      rule: {},
      pin,
    };
  }),
});

/** Processor time: what else the machine does is left out. */
const median = (work) => {
  const times = Array.from({ length: ROUNDS }, () => {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)];
};

const rows = CASES.map((size) => {
  const problem = show(size);
  const best = median(() => bestPlan(problem));
  if (best > size.limit) {
    console.log(`MISSED: ${best.toFixed(0)} ms of ${size.limit} ms`);
    process.exitCode = 1;
  }
  const { plans } = allocate(problem);
  const all = median(() => allocate(problem));
  return { ...size, plans: plans.length, "best, ms": best.toFixed(1), "everything, ms": all.toFixed(0) };
});
console.table(rows);
