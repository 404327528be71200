/*
 * Mutation testing of core and document, part by part: each part is judged by its own tests, what these let live by all.
 * Fails below 90 %, and for every mutant that lives without a reason in survivors/.
 * Takes two hours; a part that is done is not done again while its report lies in reports/.
 * Run: npm run mutate            (npm run mutate -- sum patch for some parts only)
 */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, renameSync } from "node:fs";
import { join } from "node:path";
import { nameOf, reasons } from "./survivors.mjs";

const root = join(import.meta.dirname, "../..");
const LEAST = 0.9;
const ALL_TESTS = "test/core/**/*.test.ts,test/document/*.test.ts";
/** Takes ten seconds each time, and its figures are those of whole sessions, not of a line. */
const SLOW = "test/core/check/simulation.test.ts";
const PARTS = {
  levels: ["src/core/*.ts", "test/core/*.test.ts"],
  document: ["src/document/**/*.ts", "test/document/*.test.ts"],
  sum: ["src/core/sum/*.ts", "test/core/sum/*.test.ts"],
  measure: ["src/core/measure/*.ts", "test/core/measure/*.test.ts,test/measure/*.test.ts"],
  patch: ["src/core/patch/*.ts", "test/core/patch/*.test.ts"],
  check: ["src/core/check/*.ts", "test/core/check/*.test.ts"],
  repair: ["src/core/repair/*.ts", "test/core/repair/*.test.ts"],
};

/** Runs Stryker once, unless its report is there; gives the mutants of the report. */
const mutantsOf = (name, mutate, tests) => {
  const report = join(root, "reports", `${name}.json`);
  if (!existsSync(report)) {
    const { status } = spawnSync(
      join(root, "test/slow/node_modules/.bin/stryker"),
      ["run", "test/slow/stryker.json", "--mutate", mutate],
      {
        cwd: root,
        stdio: "inherit",
        env: { ...process.env, MUTATE_TESTS: tests, MUTATE_WITHOUT: SLOW },
      },
    );
    if (status !== 0) throw new Error(`${name}: Stryker ended with ${status}`);
    renameSync(join(root, "reports/mutation.json"), report);
  }
  const { files } = JSON.parse(readFileSync(report, "utf8"));
  return Object.entries(files).flatMap(([file, { mutants, source }]) =>
    mutants.map((m) => ({ ...m, file, name: nameOf(file, source, m) })),
  );
};

const LIVES = ["Survived", "NoCoverage"];
const KILLED = ["Killed", "Timeout"];
const place = ({ file, location: { start, end } }) =>
  `${file}:${start.line}:${start.column - 1}-${end.line}:${end.column - 1}`;
const key = (m) => `${place(m)} ${m.mutatorName} ${m.replacement}`;

const why = reasons();
let killed = 0;
let all = 0;
let bare = 0;
for (const [name, [mutate, tests]] of Object.entries(PARTS)) {
  if (process.argv.length > 2 && !process.argv.includes(name)) continue;
  const own = mutantsOf(name, mutate, tests);
  const left = own.filter((m) => LIVES.includes(m.status));
  const again = left.length === 0 ? [] : mutantsOf(`${name}-again`, left.map(place).join(","), ALL_TESTS);
  const dead = new Set(again.filter((m) => KILLED.includes(m.status)).map(key));
  const still = left.filter((m) => !dead.has(key(m)));
  const count = own.filter((m) => [...LIVES, ...KILLED].includes(m.status)).length;
  const unknown = new Set(still.map((m) => m.name).filter((n) => !why.has(n)));
  for (const n of unknown) console.log(`no reason: ${n}`);
  console.log(
    `${name}: ${count - still.length} of ${count} killed, ${(100 * (1 - still.length / count)).toFixed(1)} %; ` +
      `${still.length} live, ${unknown.size} without a reason`,
  );
  killed += count - still.length;
  all += count;
  bare += unknown.size;
}
console.log(
  `together: ${killed} of ${all} killed, ${((100 * killed) / all).toFixed(1)} %; ${bare} live without a reason`,
);
if (killed < LEAST * all || bare > 0) process.exitCode = 1;
