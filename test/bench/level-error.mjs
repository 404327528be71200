/**
 * How good the estimated levels of a drum bus are. Takes are mixed by a script from single hits of several kits, played by
 * songs of others, in rooms and through setups of the app by chance, then measured and copied into the channels as the app
 * does it. From the kits and songs of the first part the errors and activities in core are derived; the second part, other
 * kits and songs, is only measured. Fails when core has other constants than the first part gives, and when less than 95 %
 * of the second part lies inside the printed error.
 * Needs sox and Debian's packages hydrogen-data and hydrogen-drumkits; nothing of them is kept.
 * Usage: node test/bench/level-error.mjs [takes a kit] [first seed of what is only measured] [tuned | measured]
 */
import { hasKits, licenceOf } from "./drum-kits.mjs";
import {
  casesBy,
  FIGURES,
  FOUND_ERRORS,
  insideOf,
  LEAST_INSIDE,
  PARTS,
  takesBy,
  typicalActivity,
} from "./level-takes.mjs";

const TIMES = Number(process.argv[2] ?? 15);
/** Take a new one for a verdict on a change: seeds that were looked at are not untouched any more. */
const SEED = Number(process.argv[3] ?? 730_001);
const ONLY = process.argv[4];
/** Seed and takes a kit from which the constants in core were derived. */
const TUNED_SEED = 1;
const TUNED_TIMES = 15;
/** Of the tuned cases as much is left out at each end. */
const LEFT_OUT = 0.01;
/** The errors in core are rounded outwards to this, dB. */
const STEP = 0.5;
/** And this is added, dB: four kits are few. A design choice. */
const MARGIN = 1.5;
/** Share of the takes in which the likely peak may be too low, and by how much, dB: the app says 1 or 2 of 100, less than 1 dB. */
const MOST_UNDER = 0.02;
const FARTHEST_UNDER = 1;
/** Activities in core are rounded to this. */
const ACTIVITY_STEP = 0.05;

const fail = (why) => {
  console.log(`MISSED: ${why}`);
  process.exitCode = 1;
};
const row = (cells) => console.log(`| ${cells.join(" | ")} |`);
const signed = (value) => `${value < 0 ? "−" : "+"}${Math.abs(value).toFixed(1)}`;
const sorted = (list) => [...list].sort((a, b) => a - b);
const middle = (list) => sorted(list)[Math.floor(list.length / 2)];

/** The microphones of a take: two at one drum in some, or one at each at most. */
const MICROPHONES = [
  ["single", "one a drum", (take) => !take.isDoubled],
  ["doubled", "two at kick and snare", (take) => take.isDoubled],
];

/** What the tuned part gives for the error of a figure. */
const fitted = (cases) => {
  const off = sorted(cases.map((c) => c.off));
  const out = Math.floor(LEFT_OUT * off.length);
  const outwards = (value) => Math.max(0, Math.ceil(value / STEP) * STEP + MARGIN);
  return { below: outwards(-off[out]), above: outwards(off[off.length - 1 - out]) };
};
const inCore = (figure, found) =>
  (figure === "level" ? FOUND_ERRORS.level : FOUND_ERRORS.average[figure])[found];

const table = (takes, isTuned) => {
  row(["figure", "microphones", "cases", "measured − estimate, dB", "printed error", "inside"]);
  row(Array(6).fill("---"));
  for (const [figure, name] of Object.entries(FIGURES))
    for (const [found, microphones, isOf] of MICROPHONES) {
      const cases = casesBy(takes.filter(isOf), figure);
      const off = sorted(cases.map((c) => c.off));
      const error = inCore(figure, found);
      const inside = insideOf(cases);
      row([
        name,
        microphones,
        cases.length,
        `${signed(off[0])} … ${signed(middle(off))} … ${signed(off.at(-1))}`,
        `${signed(-error.below)} ${signed(error.above)}`,
        `${(100 * inside).toFixed(1)} %`,
      ]);
      const fit = fitted(cases);
      if (isTuned && (fit.below !== error.below || fit.above !== error.above))
        fail(`${name}, ${microphones}: the takes give ${signed(-fit.below)} ${signed(fit.above)} dB`);
      if (!isTuned && inside < LEAST_INSIDE)
        fail(`${name}, ${microphones}: ${(100 * inside).toFixed(1)} % inside the printed error`);
    }
};

/** The average by the correlations of the recording, which the printed error is not for. */
const correlated = (takes) => {
  const off = sorted(takes.flatMap((take) => take.rows.map((r) => r.correlated)));
  console.log(`\nAverage RMS, correlated − measured: ${signed(off[0])} … ${signed(off.at(-1))} dB`);
};

/** Estimated peaks against the highest sample. */
const peaks = (takes) => {
  console.log("\nEstimated peak − highest sample, dB, lowest … middle … highest:");
  for (const name of ["likely", "playable", "allAtOnce"]) {
    const off = sorted(takes.flatMap((take) => take.rows.map((r) => r.peaks[name])));
    const under = off.filter((x) => x < 0).length / off.length;
    console.log(
      `  ${name.padEnd(9)} ${signed(off[0])} … ${signed(middle(off))} … ${signed(off.at(-1))}; too low in ${(100 * under).toFixed(1)} %`,
    );
    if (name === "likely" && (under > MOST_UNDER || off[0] < -FARTHEST_UNDER))
      fail("the likely peak is under the highest sample more often, or by more, than the app says");
    if (name === "allAtOnce" && off[0] < 0) fail("all peaks aligned is under the highest sample");
  }
};

/** The middle activity of each kind of drum. */
const activities = (takes) => {
  const of = new Map();
  for (const [kind, share] of takes.flatMap((take) => take.activities))
    of.set(kind, [...(of.get(kind) ?? []), share]);
  console.log("\nActivity, middle of the takes in which the drum is struck:");
  for (const [kind, shares] of of) {
    const rounded = Math.round(middle(shares) / ACTIVITY_STEP) * ACTIVITY_STEP;
    console.log(
      `  ${kind.padEnd(9)} ${middle(shares).toFixed(2)} of ${shares.length}; in core ${typicalActivity(kind)}`,
    );
    if (Math.abs(rounded - typicalActivity(kind)) > 1e-9)
      fail(`activity of ${kind}: the takes give ${rounded.toFixed(2)}`);
  }
};

const made = (part) =>
  `${PARTS[part].kits.map((kit) => `${kit} (${licenceOf(kit)})`).join(", ")}; songs ${PARTS[part].songs.join(", ")}`;

if (!hasKits()) {
  fail("no samples: install Debian's packages hydrogen-data and hydrogen-drumkits, or set HYDROGEN_DATA");
} else {
  if (ONLY !== "measured") {
    const takes = await takesBy("tuned", TUNED_TIMES, TUNED_SEED);
    console.log(`Tuned on ${takes.length} takes of ${made("tuned")}:\n`);
    table(takes, true);
    correlated(takes);
    activities(takes);
    peaks(takes);
  }
  if (ONLY !== "tuned") {
    const takes = await takesBy("measured", TIMES, SEED);
    console.log(`\nOnly measured, ${takes.length} takes of ${made("measured")}:\n`);
    table(takes, false);
    correlated(takes);
    peaks(takes);
  }
}
