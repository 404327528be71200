/**
 * Simulates checks at the kit over every fault, five sizes of kit and three pan laws, with a fixed seed,
 * and prints how often the verdict is right and how many hits it takes, as Markdown.
 * Usage: node test/bench/check.mjs [sessions a fault, 60]
 */
import { performance } from "node:perf_hooks";
import { bundle } from "../tools/bundle.mjs";

const {
  asAsked,
  boundOf,
  checkOf,
  checkWith,
  crowd,
  drummer,
  frontToBack,
  judge,
  KITS,
  play,
  seeded,
  shuffled,
  simulate,
} = await bundle("test/core/check/bench.ts");

const times = Number(process.argv[2] ?? 60);
const SLIP = 0.05;
const LAWS = ["sine", "root", "linear"];
const percent = (share) => `${(100 * share).toFixed(1)} %`;
const row = (cells) => console.log(`| ${cells.join(" | ")} |`);
const mean = (values) => values.reduce((a, b) => a + b, 0) / values.length;

console.log(
  "Right verdict, or the right set of faults that no answer can tell apart; every fault as often as every",
);
console.log(
  `other, ${times} sessions each. Bound: entropy of all sets before the first hit over the largest expected`,
);
console.log(
  "information of one answer then (both by the model with 5 % slips). “By weight”: faults as often as the",
);
console.log("table of faults weighs them.\n");
const head = ["law", "mics", "sets", "right, 5 % slips", "right, no slips", "bound", "1.5 × bound"];
row([...head, "hits", "hits by weight", "hits, random order", "hits, front to back"]);
row(Array(11).fill("---"));

const all = [];
for (const law of LAWS) {
  for (const microphones of Object.keys(KITS).map(Number)) {
    const check = checkWith(microphones, law);
    const random = seeded(all.length + 1);
    const run = (slip, order) => simulate(check, slip, times, random, order);
    const asked = run(SLIP, () => asAsked);
    const result = {
      bound: boundOf(check),
      asked,
      clean: run(0, () => asAsked),
      random: run(SLIP, () => shuffled(random)),
      front: run(SLIP, () => frontToBack),
    };
    all.push(result);
    row([
      law,
      microphones,
      check.sets.length,
      percent(asked.right / asked.sessions),
      percent(result.clean.right / result.clean.sessions),
      result.bound.toFixed(2),
      (1.5 * result.bound).toFixed(2),
      asked.hits.toFixed(2),
      asked.weighted.toFixed(2),
      result.random.hits.toFixed(2),
      result.front.hits.toFixed(2),
    ]);
  }
}

const total = (of, what) => all.reduce((sum, r) => sum + r[of][what], 0);
const share = (of, what) => total(of, what) / total(of, "sessions");
const bound = mean(all.map((r) => r.bound));
row([
  "all",
  "",
  "",
  percent(share("asked", "right")),
  percent(share("clean", "right")),
  bound.toFixed(2),
  (1.5 * bound).toFixed(2),
  ...["hits", "weighted"].map((what) => mean(all.map((r) => r.asked[what])).toFixed(2)),
  ...["random", "front"].map((of) => mean(all.map((r) => r[of].hits)).toFixed(2)),
]);
console.log(`\n${total("asked", "sessions")} sessions with slips, ${total("clean", "sessions")} without.`);
console.log(`A known fault called unknown: ${percent(share("asked", "unknown"))};`);
console.log(`ended unsure: ${percent(share("asked", "unsure"))}.`);
const worst = (what) => Math.max(...all.map((r) => r.asked[what] / r.bound)).toFixed(2);
console.log(`Most hits over the bound in one row: ${worst("hits")} ×, by weight ${worst("weighted")} ×.`);

// The time of a question: a long check of many sources whose answers fit nothing.
const answers = ["left", "middle", "right", "nothing", "unclear"];
const random = seeded(64);
const setup = crowd(64);
const check = checkOf(setup, drummer);
const { hits } = play(check, (piece) => answers[Number(piece.split(" ")[1]) % 3] ?? "left", asAsked);
const long = Array.from({ length: 40 }, () => ({
  piece: check.strikes[Math.floor(random() * check.strikes.length)].piece,
  answer: answers[Math.floor(random() * 5)],
}));
const median = (work) => {
  const taken = Array.from({ length: 101 }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return taken.sort((a, b) => a - b);
};
const say = (name, work) => {
  const taken = median(work);
  console.log(`${name}: median ${taken[50].toFixed(2)} ms, slowest ${taken[100].toFixed(2)} ms`);
};
console.log(`\n64 sources, ${check.sets.length} sets:`);
say("prepare the check, once", () => checkOf(setup, drummer));
say("first question", () => judge(check, []));
say(`question after ${hits.length - 1} hits`, () => judge(check, hits.slice(0, -1)));
say("question after 40 hits that fit nothing", () => judge(check, long));
