/*
 * Cost of every repair of one pair, of what would change the answer, and of the images, as listeners and sources grow;
 * and of everything the Image screen shows, which must fit in one picture of a screen.
 * Run: node test/bench/repair.mjs
 */
import { bundle } from "../tools/bundle.mjs";
import { numbers } from "../tools/chance.mjs";

const { repairsFor } = await bundle("src/core/repair/repairs.ts");
const { situationOf } = await bundle("src/core/repair/situation.ts");
const { firstChange, whatWouldChange } = await bundle("src/core/repair/changes.ts");
const { imagesOf } = await bundle("src/core/image.ts");
const { imageStatement } = await bundle("src/core/statements.ts");
const { countsSaid } = await bundle("src/core/heardsaid.ts");
const { housePanFlags } = await bundle("src/core/housepans.ts");
const { overheadFlags } = await bundle("src/core/overheads.ts");
const { acrossLaws } = await bundle("src/core/acrosslaws.ts");

const setupOf = (sourceCount, listenerCount, { hard }) => {
  const next = numbers(sourceCount + 7 * listenerCount + (hard ? 1 : 0));
  const spread = (size) => (2 * next() - 1) * size;
  const pieces = Array.from({ length: sourceCount }, (_, i) => ({
    id: `p${i}`,
    name: `Piece ${i}`,
    kind: "other",
    x: spread(1),
    y: next(),
    limbs: ["hand"],
    player: "drummer",
  }));
  const sources = pieces.map((piece, i) => ({
    id: `s${i}`,
    name: `Source ${i}`,
    kind: "drum",
    piece: i % 9 === 8 ? null : piece.id,
    channels: hard && i % 5 === 4 ? 2 : 1,
    pan: hard ? spread(1) : Math.max(-1, Math.min(1, -piece.x)),
    muted: false,
    inverted: false,
    level: -20,
    peak: -10,
    keepSides: hard && i % 5 === 4,
  }));
  const sum = {
    id: "m1",
    name: "Drums",
    stereo: true,
    sends: sources.map((s, i) => ({ source: s.id, level: 0, pan: hard && i % 3 === 0 ? spread(1) : null })),
    trim: 0,
    legTrim: hard ? [0, -2] : [0, 0],
    legInverted: [false, false],
    unevenLegs: false,
    reversed: false,
    folded: false,
    padDb: 0,
  };
  const leg = (name, trim) => ({ feed: { kind: "leg", sum: "m1", leg: name }, on: true, trim });
  return {
    kit: { hand: "right", yaw: 0, pieces },
    console: {
      law: "sine",
      centreDb: 3,
      reference: "sides",
      twoChannel: "balance-linear",
      panStyle: "steps",
      panSteps: 100,
      levelStep: 0.1,
      rms: "sample",
      outputDbu: 18,
    },
    sources,
    sums: [sum],
    listeners: Array.from({ length: listenerCount }, (_, i) => ({
      id: `l${i}`,
      name: `Listener ${i}`,
      kind: ["audience", "drummer"][i] ?? "performer",
      x: spread(3),
      y: spread(3),
      facing: i % 3 === 0 ? 180 : spread(hard ? 180 : 30),
      sum: i === 0 ? null : "m1",
      flipped: false,
      mono: false,
    })),
    monitor: {
      slotCount: 32,
      slots: [leg("left", 0), leg("right", hard ? 1 : 0), ...Array(14).fill(null)],
      inputMaxDbu: 20,
    },
    wishes: { first: "l1", houseFixed: !hard, slotsFixed: false, margin: 6 },
    ear: null,
    recording: null,
  };
};

const ROUNDS = 60;
/** Most that everything the Image screen shows may take for 64 sources and 8 listeners, ms. */
const MOST = 16;

/** Milliseconds of a piece of work, round by round, the shortest first. */
const time = (work) => {
  const rounds = Array.from({ length: ROUNDS }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return rounds.sort((a, b) => a - b);
};

const print = (rounds) => `${rounds[ROUNDS >> 1].toFixed(2)} (${rounds[0].toFixed(2)})`.padStart(15);

/** What stands on the Image screen; every fact that would change the answer only once its fold is opened. */
const shown = (setup, unfolded) => {
  const situation = situationOf(setup, setup.sums[0]);
  const images = imagesOf(setup);
  return [
    images,
    images.map((image, at) => [imageStatement(setup, setup.listeners[at], image), countsSaid(image)]),
    overheadFlags(setup),
    housePanFlags(setup, images[0]),
    repairsFor(situation),
    unfolded ? whatWouldChange(situation) : firstChange(situation),
    acrossLaws(setup.console, setup.sources[0].pan),
  ];
};

console.log(`milliseconds, median of ${ROUNDS} (fastest)`);
console.log(
  "sources listeners kind           repairs          images    first change     all changes   kept",
);
const totals = [];
for (const hard of [false, true])
  for (const [sources, listeners] of [
    [8, 3],
    [16, 6],
    [64, 8],
  ]) {
    const setup = setupOf(sources, listeners, { hard });
    const [sum] = setup.sums;
    const kept = repairsFor(situationOf(setup, sum)).ranked.length;
    const cells = [
      () => repairsFor(situationOf(setup, sum)),
      () => imagesOf(setup),
      () => firstChange(situationOf(setup, sum)),
      () => whatWouldChange(situationOf(setup, sum)),
    ].map((work) => print(time(work)));
    const kind = hard ? "hard  " : "usual ";
    console.log(
      `${String(sources).padStart(7)} ${String(listeners).padStart(9)} ${kind} ${cells.join(" ")} ${String(kept).padStart(6)}`,
    );
    if (sources < 64) continue;
    totals.push([`${kind} as it opens`, time(() => shown(setup, false))]);
    totals.push([`${kind} with every fact that would change the answer`, time(() => shown(setup, true))]);
  }

console.log(`\neverything the Image screen shows, 64 sources, 8 listeners; at most ${MOST}`);
// On a busy machine only the fastest round says what the work takes.
for (const [what, rounds] of totals) {
  const over = rounds[0] > MOST;
  console.log(`${print(rounds)} ${what}${over ? ": TOO SLOW" : ""}`);
  if (over) process.exitCode = 1;
}
