/**
 * Hearings of rendered hits (test/core/hear/stage.ts, which shares nothing with the engine) over the templates of the app,
 * hands and pan laws, every fault, both sample rates: bleed −12…−20 dB, overheads that hear all, noise at −60 dBFS, level
 * errors of 0.3 dB. As Markdown; fails when a wanted figure is missed. Then real drum samples, where they are installed:
 * each hit is found once, with its own level difference. Thresholds were tuned on seeds below 1,000.
 * Usage: node test/bench/hear.mjs [first seed] [cells, of all] [times] [first cell]
 */
import { existsSync, readdirSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { bundle } from "../tools/bundle.mjs";

const { heardCell, heardSession, hitFinder, seeded, wrongsOf } = await bundle("test/core/hear/bench.ts");

/** Take a new one for a verdict on a change: seeds that were looked at are not untouched any more. */
const SEED = Number(process.argv[2] ?? 41_000);
const CELLS = Number(process.argv[3] ?? Number.POSITIVE_INFINITY);
const FROM = Number(process.argv[5] ?? 0);
const TIMES = Number(process.argv[4] ?? 1);
const PLANNED_TIMES = 10 * TIMES;
const WANTED = { right: 0.99, planned: 0.99, perDrum: 1.3 };
const RATES = [44_100, 48_000];

const LAWS = ["sine", "root", "linear", "mean45", "sine45", "cosine2"];
const HANDS = ["right", "left", "open"];
const REFERENCES = ["sides", "centre"];
const COUNTS = [3, 4, 8, 10, 12];
const all = LAWS.flatMap((law, l) =>
  COUNTS.map((count, c) => [
    count,
    HANDS[(l + c) % HANDS.length],
    law,
    REFERENCES[(l + c) % REFERENCES.length],
  ]),
);
// Some of them: spread over counts and laws.
const cells = Array.from(all, (_, at) => all[(at * 13) % all.length]).slice(FROM, FROM + CELLS);

const percent = (share) => `${(100 * share).toFixed(1)} %`;
const mean = (list, of) =>
  list.length === 0 ? Number.NaN : list.reduce((sum, item) => sum + Number(of(item)), 0) / list.length;
const row = (columns) => console.log(`| ${columns.join(" | ")} |`);
const fail = (says) => {
  console.log(`MISSED: ${says}`);
  process.exitCode = 1;
};

const HEADS = [
  "cell",
  "hearings",
  "fault found",
  "of these only as open",
  "named",
  "hits a drum, with a fault",
  "nothing wrong: no fault named",
  "hits a drum, as planned",
];
row(HEADS);
row(HEADS.map(() => "---"));
const sessions = [];
const from = performance.now();
cells.forEach(([count, hand, law, reference], at) => {
  const cell = heardCell(count, hand, law, reference);
  const random = seeded(SEED + FROM + at);
  const its = Array.from({ length: TIMES }, () => wrongsOf(cell, random))
    .flat()
    .flatMap((wrong) => (wrong.fault === "planned" ? Array(PLANNED_TIMES / TIMES).fill(wrong) : [wrong]))
    .map((wrong, i) => heardSession(cell, wrong, RATES[i % RATES.length], random));
  sessions.push(...its);
  const faulty = its.filter((s) => s.wrong.fault !== "planned");
  const planned = its.filter((s) => s.wrong.fault === "planned");
  row([
    cell.name,
    its.length,
    percent(mean(faulty, (s) => s.right)),
    percent(mean(faulty, (s) => s.right && s.state.verdict.kind === "planned")),
    mean(faulty, (s) => s.named).toFixed(2),
    mean(faulty, (s) => s.perDrum).toFixed(2),
    percent(mean(planned, (s) => s.right)),
    mean(planned, (s) => s.perDrum).toFixed(2),
  ]);
});
const faulty = sessions.filter((s) => s.wrong.fault !== "planned");
const planned = sessions.filter((s) => s.wrong.fault === "planned");
const right = mean(faulty, (s) => s.right);
const calm = mean(planned, (s) => s.right);
const perDrum = mean(sessions, (s) => s.perDrum);

console.log("\n| fault | hearings | found | only as open |\n| --- | --- | --- | --- |");
for (const fault of new Set(faulty.map((s) => s.wrong.fault))) {
  const its = faulty.filter((s) => s.wrong.fault === fault);
  row([
    fault,
    its.length,
    percent(mean(its, (s) => s.right)),
    percent(mean(its, (s) => s.right && s.state.verdict.kind === "planned")),
  ]);
}
console.log("\nNot right:");
for (const s of sessions.filter((one) => !one.right))
  console.log(
    `  ${s.cell}: ${s.wrong.fault} ${s.wrong.channel ?? ""} ${s.wrong.size ?? ""} → ${s.instead} (${s.hits} hits)`,
  );
console.log(
  `\n${sessions.length} hearings in ${((performance.now() - from) / 1000).toFixed(0)} s: fault found ${percent(right)}, ` +
    `nothing wrong and no fault named ${percent(calm)} of ${planned.length}, ${perDrum.toFixed(2)} hits a drum, ` +
    `${mean(faulty, (s) => s.named).toFixed(2)} faults named`,
);
if (right < WANTED.right) fail(`fault found ${percent(right)}`);
if (calm < WANTED.planned) fail(`nothing wrong, and no fault named: ${percent(calm)}`);
if (perDrum > WANTED.perDrum) fail(`${perDrum.toFixed(2)} hits a drum`);

/** Single hits of a drum kit: Debian's package hydrogen-data, GPL-2 or later. Read where it is installed, never kept here. */
const PACKAGE = "hydrogen-data";
const SAMPLES = process.env.DRUM_SAMPLES ?? "/usr/share/hydrogen/data/drumkits/GMRockKit";
/** A pedal is heard twice: down and the cymbals shutting. */
const TWICE = /^HatPedal|^HandClap/;
const FOUND_ONCE = 0.95;

/** The first channel of a PCM WAV file of 16 or 24 bits. */
const firstChannel = (bytes) => {
  let at = 12;
  let [format, data, size] = [0, 0, 0];
  while (at + 8 <= bytes.length) {
    const [id, length] = [bytes.toString("latin1", at, at + 4), bytes.readUInt32LE(at + 4)];
    if (id === "fmt ") format = at + 8;
    if (id === "data") [data, size] = [at + 8, Math.min(length, bytes.length - at - 8)];
    at += 8 + length + (length % 2);
  }
  const [channels, rate, width] = [
    bytes.readUInt16LE(format + 2),
    bytes.readUInt32LE(format + 4),
    bytes.readUInt16LE(format + 14) / 8,
  ];
  const frames = Math.floor(size / width / channels);
  const samples = Float64Array.from(
    { length: frames },
    (_, i) => bytes.readIntLE(data + i * width * channels, width) / 2 ** (8 * width - 1),
  );
  return { rate, samples };
};

if (!existsSync(join(SAMPLES, "Kick-Hard.wav")))
  console.log(
    `\nreal drums: left out, no samples in ${SAMPLES}; install Debian's package ${PACKAGE} or set DRUM_SAMPLES`,
  );
else {
  const random = seeded(SEED);
  const names = readdirSync(SAMPLES).filter((name) => name.endsWith(".wav") && !TWICE.test(name));
  let once = 0;
  let worst = 0;
  for (const name of names) {
    const { rate, samples } = firstChannel(await readFile(join(SAMPLES, name)));
    const top = samples.reduce((most, s) => Math.max(most, Math.abs(s)), 0);
    const begin = Math.round(rate / 2);
    const length = begin + samples.length + begin;
    const side = (gain) =>
      Float32Array.from(
        { length },
        (_, i) => ((samples[i - begin] ?? 0) * gain) / top + 0.0017 * (2 * random() - 1),
      );
    const found = hitFinder(rate).take(side(0.5), side(0.25));
    const [first] = found;
    if (found.length === 1 && first.kind === "hit") {
      once += 1;
      worst = Math.max(worst, Math.abs(first.hit.difference + 20 * Math.log10(2)));
    } else
      console.log(
        `  ${name}: ${found.map((f) => (f.kind === "hit" ? "hit" : f.why)).join(", ") || "not found"}`,
      );
  }
  console.log(
    `\nreal drums (${PACKAGE}): ${once} of ${names.length} found once; level difference off by ${worst.toFixed(2)} dB at most`,
  );
  if (once < FOUND_ONCE * names.length)
    fail(`${names.length - once} of ${names.length} real hits not found once`);
  if (worst > 0.1) fail(`level difference of a real hit off by ${worst.toFixed(2)} dB`);
}
