/*
 * Mutation testing of core and document, part by part: each part is judged by its own tests, what these let live by all.
 * Fails below 90 %, and for every mutant that lives without a reason in survivors/.
 * Takes two hours; what lies in reports/ of a file that has not changed since is not done again, so to try what lives
 * against new tests, throw away reports/*-again.json.
 * Run: npm run mutate            (npm run mutate -- sum patch for some parts only)
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { nameOf, reasons } from "./survivors.mjs";

const root = join(import.meta.dirname, "../..");
const LEAST = 0.9;
const ALL_TESTS = "test/core/**/*.test.ts,test/document/*.test.ts,test/measure/*.test.ts";
/** These take long each time, and judge whole sessions, files and other programs rather than a line of core. */
const SLOW = ["core/check/simulation", "measure/fuzz", "measure/outside"].map(
  (name) => `test/${name}.test.ts`,
);
/** Folder and tests of each part. */
const PARTS = {
  levels: ["src/core", "test/core/*.test.ts"],
  document: ["src/document", "test/document/*.test.ts"],
  commands: ["src/document/commands", "test/document/*.test.ts"],
  sum: ["src/core/sum", "test/core/sum/*.test.ts"],
  measure: ["src/core/measure", "test/core/measure/*.test.ts,test/measure/*.test.ts"],
  patch: ["src/core/patch", "test/core/patch/*.test.ts"],
  check: ["src/core/check", "test/core/check/*.test.ts"],
  recommend: ["src/core/recommend", "test/core/recommend/*.test.ts"],
};

const textOf = (file) => readFileSync(join(root, file), "utf8");

/** Runs Stryker over what is to be mutated; gives the files of its report. */
const mutated = (what, tests) => {
  const report = join(root, "reports/mutation.json");
  rmSync(report, { force: true });
  const { status } = spawnSync(
    join(root, "test/slow/node_modules/.bin/stryker"),
    ["run", "test/slow/stryker.json", "--mutate", what.join(",")],
    {
      cwd: root,
      stdio: "inherit",
      env: { ...process.env, MUTATE_TESTS: tests, MUTATE_WITHOUT: SLOW.join(",") },
    },
  );
  if (status !== 0 || !existsSync(report)) throw new Error(`Stryker ended with ${status}`);
  return JSON.parse(readFileSync(report, "utf8")).files;
};

/**
 * The mutants of some files, from the report that is kept under this name as far as they are as they were then.
 * @param of what is mutated of each file: the file or places in it
 */
const mutantsOf = (name, of, tests) => {
  const kept = join(root, "reports", `${name}.json`);
  const known = existsSync(kept) ? JSON.parse(readFileSync(kept, "utf8")).files : {};
  const files = Object.fromEntries(
    Object.keys(of).flatMap((f) => (known[f]?.source === textOf(f) ? [[f, known[f]]] : [])),
  );
  const anew = Object.keys(of).filter((file) => !files[file]);
  const places = anew.flatMap((file) => of[file]);
  if (places.length > 0) Object.assign(files, mutated(places, tests));
  // A file without a mutant is in no report.
  for (const file of anew) files[file] ??= { source: textOf(file), mutants: [] };
  writeFileSync(kept, JSON.stringify({ files }));
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
const files = new Set();
const lives = new Set();
for (const [name, [folder, tests]] of Object.entries(PARTS)) {
  if (process.argv.length > 2 && !process.argv.includes(name)) continue;
  const whole = readdirSync(join(root, folder))
    .filter((file) => file.endsWith(".ts"))
    .map((file) => [`${folder}/${file}`, [`${folder}/${file}`]]);
  const own = mutantsOf(name, Object.fromEntries(whole), tests);
  const left = own.filter((m) => LIVES.includes(m.status));
  const places = Object.fromEntries(left.map((m) => [m.file, []]));
  for (const m of left) places[m.file].push(place(m));
  const again = mutantsOf(`${name}-again`, places, ALL_TESTS);
  const dead = new Set(again.filter((m) => KILLED.includes(m.status)).map(key));
  const still = left.filter((m) => !dead.has(key(m)));
  const count = own.filter((m) => [...LIVES, ...KILLED].includes(m.status)).length;
  const unknown = new Set(still.map((m) => m.name).filter((n) => !why.has(n)));
  for (const [file] of whole) files.add(file);
  for (const m of still) lives.add(m.name);
  for (const n of unknown) console.log(`no reason: ${n}`);
  console.log(
    `${name}: ${count - still.length} of ${count} killed, ${(100 * (1 - still.length / count)).toFixed(1)} %; ` +
      `${still.length} live, ${unknown.size} without a reason`,
  );
  killed += count - still.length;
  all += count;
  bare += unknown.size;
}
for (const n of why.keys())
  if (files.has(n.split(":")[0]) && !lives.has(n)) console.log(`a reason, but killed or gone: ${n}`);
console.log(
  `together: ${killed} of ${all} killed, ${((100 * killed) / all).toFixed(1)} %; ${bare} live without a reason`,
);
if (killed < LEAST * all || bare > 0) process.exitCode = 1;
