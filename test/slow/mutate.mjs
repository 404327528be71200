/*
 * Mutation testing of core and document, part by part: each part is judged by its own tests, what these let live by all.
 * Fails below 95 %, and for every mutant that lives without a reason in survivors/.
 * All of it takes the better part of a day, a drawn sample an hour; what lies in reports/ of a file that has not changed
 * since is not done again, so to try what lives against new tests, throw away reports/*-again.json.
 * Run: npm run mutate            (npm run mutate -- pan stereo for some parts only;
 *                                 npm run mutate -- --one-in 16 [--draw 2] for a sample, with the range its score lies in)
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { Instrumenter } from "@stryker-mutator/instrumenter";
import { nameOf, reasons } from "./survivors.mjs";

const root = join(import.meta.dirname, "../..");
const LEAST = 0.95;
const ALL_TESTS = "test/core/**/*.test.ts,test/document/*.test.ts,test/measure/*.test.ts";
/** These take long each time, and judge whole sessions, files and other programs rather than a line of core. */
const SLOW = ["core/check/simulation", "measure/fuzz", "measure/outside"].map(
  (name) => `test/${name}.test.ts`,
);

/** Folder and tests of each part: a folder of core is a part, and what lies beside its folders is another. */
const PARTS = {
  core: ["src/core", "test/core/*.test.ts"],
  document: ["src/document", "test/document/*.test.ts"],
  commands: ["src/document/commands", "test/document/*.test.ts"],
};
for (const entry of readdirSync(join(root, "src/core"), { withFileTypes: true }))
  if (entry.isDirectory())
    PARTS[entry.name] = [`src/core/${entry.name}`, `test/core/${entry.name}/**/*.test.ts`];
PARTS.measure[1] += ",test/measure/*.test.ts";

const { values: asked, positionals } = parseArgs({
  allowPositionals: true,
  options: { "one-in": { type: "string", default: "1" }, draw: { type: "string", default: "1" } },
});
const ONE_IN = Number(asked["one-in"]);
if (!(ONE_IN >= 1)) throw new Error(`--one-in wants a number from 1, not ${asked["one-in"]}`);
for (const name of positionals)
  if (!PARTS[name]) throw new Error(`no part ${name}: there are ${Object.keys(PARTS).join(", ")}`);
const drawn = ONE_IN > 1 ? `-one-in-${ONE_IN}-${asked.draw}` : "";

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
  const kept = join(root, "reports", `${name}${drawn}.json`);
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

/** Whether a mutant is in the sample: the same one each time, whatever else is mutated with it. */
const isDrawn = (m) =>
  createHash("sha256")
    .update(`${asked.draw} ${key(m)}`)
    .digest()
    .readUInt32BE() %
    ONE_IN ===
  0;

/** The places of some mutants by file, as Stryker wants them. */
const placesOf = (mutants) => {
  const places = {};
  for (const m of mutants) {
    places[m.file] ??= [];
    places[m.file].push(place(m));
  }
  return places;
};

/** What is to be mutated of a part: its files whole, or where the mutants of the sample stand. */
const wanted = async (paths) => {
  if (ONE_IN === 1) return Object.fromEntries(paths.map((path) => [path, [path]]));
  const quiet = new Proxy({}, { get: (_, name) => () => !String(name).startsWith("is") });
  const { mutants } = await new Instrumenter(quiet).instrument(
    paths.map((path) => ({ name: path, mutate: true, content: textOf(path) })),
    { ignorers: [], excludedMutations: [], plugins: null, noHeader: true },
  );
  // The instrumenter counts lines and columns from 0, reports from 1.
  const plus1 = ({ line, column }) => ({ line: line + 1, column: column + 1 });
  const all = mutants.map(({ fileName, location: { start, end }, mutatorName, replacement }) => ({
    file: fileName,
    location: { start: plus1(start), end: plus1(end) },
    mutatorName,
    replacement,
  }));
  return placesOf(all.filter(isDrawn));
};

/** 95 % range of a share, after Wilson (1927), “Probable inference, the law of succession, and statistical inference”. */
const rangeOf = (hits, of) => {
  const z = 1.96;
  const share = hits / of;
  const middle = (share + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt((share * (1 - share)) / of + (z / (2 * of)) ** 2);
  return [middle - half, middle + half];
};
const percent = (share) => `${(100 * share).toFixed(1)} %`;

const names = positionals.length > 0 ? positionals : Object.keys(PARTS);
const own = {};
for (const name of names) {
  const [folder, tests] = PARTS[name];
  const paths = readdirSync(join(root, folder))
    .filter((file) => file.endsWith(".ts"))
    .map((file) => `${folder}/${file}`);
  // What stands inside a drawn place is mutated with it, and left out of the count.
  own[name] = mutantsOf(name, await wanted(paths), tests).filter(isDrawn);
}

const left = Object.values(own)
  .flat()
  .filter((m) => LIVES.includes(m.status));
const again = mutantsOf("again", placesOf(left), ALL_TESTS);
const dead = new Set(again.filter((m) => KILLED.includes(m.status)).map(key));
const why = reasons();
const sum = { killed: 0, all: 0, bare: 0 };
const files = new Set();
const lives = new Set();
for (const [name, mutants] of Object.entries(own)) {
  const still = mutants.filter((m) => LIVES.includes(m.status) && !dead.has(key(m)));
  const count = mutants.filter((m) => [...LIVES, ...KILLED].includes(m.status)).length;
  const unknown = new Set(still.map((m) => m.name).filter((n) => !why.has(n)));
  for (const m of mutants) files.add(m.file);
  for (const m of still) lives.add(m.name);
  for (const n of unknown) console.log(`no reason: ${n}`);
  console.log(
    `${name}: ${count - still.length} of ${count} killed, ${percent(1 - still.length / (count || 1))}; ` +
      `${still.length} live, ${unknown.size} without a reason`,
  );
  sum.killed += count - still.length;
  sum.all += count;
  sum.bare += unknown.size;
}
if (ONE_IN === 1)
  for (const n of why.keys())
    if (files.has(n.split(":")[0]) && !lives.has(n)) console.log(`a reason, but killed or gone: ${n}`);
const range = rangeOf(sum.killed, sum.all).map(percent).join(" … ");
console.log(
  `together: ${sum.killed} of ${sum.all} killed, ${percent(sum.killed / sum.all)}${ONE_IN > 1 ? ` (${range})` : ""}; ` +
    `${sum.bare} live without a reason`,
);
if (sum.killed < LEAST * sum.all || sum.bare > 0) process.exitCode = 1;
