/*
 * Cost of the recommendation, of what would change it, and of the images, as listeners and channels grow, up to the
 * slowest setups that the app accepts; and of everything the Image screen shows.
 * Fails where the recommendation holds up the page for more than 50 ms, or the Image screen for more than 16 ms.
 * Processor time, so that what else runs on the machine counts little; the fastest of some rounds counts.
 * Run: node test/bench/recommend.mjs
 */
import { bundle } from "../tools/bundle.mjs";
import { numbers } from "../tools/chance.mjs";

const { recommend } = await bundle("src/core/recommend/recommend.ts");
const { reasonsFor } = await bundle("src/core/recommend/reasons.ts");
const { whatIfs } = await bundle("src/core/recommend/what-if.ts");
const { describeAdvice } = await bundle("src/text/recommend-why.ts");
const { imagesOf } = await bundle("src/core/image.ts");
const { imageStatement } = await bundle("src/core/statements.ts");
const { countsSaid } = await bundle("src/core/heardsaid.ts");
const { housePanFlags } = await bundle("src/core/housepans.ts");
const { overheadFlags } = await bundle("src/core/overheads.ts");
const { acrossLaws } = await bundle("src/core/acrosslaws.ts");
const { LIMITS } = await bundle("src/document/limits.ts");

/**
 * A setup with so many channels on one bus and so many listeners, all of whom hear it but the audience.
 * "usual": panned for the audience, and the band faces more or less one way. "hard": pans by chance, unequal trims,
 * stereo channels and ones that keep L/R, everybody faces another way. "FOH free" lets channel pans change as well.
 * "a bus each": the same, and all but one listen to buses of their own with as many channels.
 */
const setupOf = (sourceCount, listenerCount, kind) => {
  const hard = kind !== "usual";
  const next = numbers(sourceCount + 7 * listenerCount + (hard ? 1 : 0));
  const spread = (size) => (2 * next() - 1) * size;
  const pieces = Array.from({ length: Math.min(sourceCount, LIMITS.pieces) }, (_, i) => ({
    id: `p${i}`,
    name: `Piece ${i}`,
    kind: "other",
    x: spread(1),
    y: next(),
    limbs: ["hand"],
    player: "drummer",
  }));
  const sources = Array.from({ length: sourceCount }, (_, i) => {
    const piece = pieces[i % pieces.length];
    return {
      id: `s${i}`,
      name: `Channel ${i}`,
      kind: "drum",
      piece: i % 9 === 8 ? null : piece.id,
      channels: hard && i % 5 === 4 ? 2 : 1,
      pan: hard ? spread(1) : Math.max(-1, Math.min(1, -piece.x)),
      muted: false,
      inverted: false,
      level: -20,
      peak: -10,
      keepSides: hard && i % 5 >= 3,
    };
  });
  const bus = {
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
  const others = kind === "a bus each" ? LIMITS.sums - 1 : 0;
  const buses = [bus, ...Array.from({ length: others }, (_, i) => ({ ...bus, id: `m${i + 2}` }))];
  const side = (name, trim) => ({ feed: { kind: "leg", sum: "m1", leg: name }, on: true, trim });
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
    sums: buses,
    listeners: Array.from({ length: listenerCount }, (_, i) => ({
      id: `l${i}`,
      name: `Listener ${i}`,
      kind: ["audience", "drummer"][i] ?? "performer",
      x: spread(3),
      y: spread(3),
      facing: i === 0 ? 180 : spread(hard ? 180 : 30),
      sum: i === 0 ? null : buses[(i - 1) % buses.length].id,
      flipped: false,
      mono: false,
    })),
    monitor: {
      slotCount: 64,
      slots: [side("left", 0), side("right", hard ? 1 : 0), ...Array(14).fill(null)],
      inputMaxDbu: 20,
    },
    wishes: { first: "l1", houseFixed: kind === "usual" || kind === "hard", slotsFixed: false, margin: 6 },
    ear: null,
    recording: null,
  };
};

const ROUNDS = 12;
/** Most that the page may be held up, ms. */
const MOST = 50;
/** Most that everything the Image screen shows may take for 64 channels and 8 listeners, ms. */
const MOST_SHOWN = 16;

const processor = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** Milliseconds of the processor that a piece of work takes: the fastest round. */
const time = (work, rounds = ROUNDS) => {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    const start = processor();
    work();
    least = Math.min(least, processor() - start);
  }
  return least;
};

const held = (what, ms, most) => {
  if (ms <= most) return `${ms.toFixed(1)}`;
  console.log(`TOO SLOW: ${what}, ${ms.toFixed(1)} ms of ${most}`);
  process.exitCode = 1;
  return `${ms.toFixed(1)} !`;
};

/** What the Image screen works out before it is first drawn. */
const shown = (setup) => {
  const [bus] = setup.sums;
  const images = imagesOf(setup);
  const ranked = recommend(setup, bus);
  return [
    images.map((image, at) => [imageStatement(setup, setup.listeners[at], image), countsSaid(image)]),
    overheadFlags(setup),
    housePanFlags(setup, images[0]),
    describeAdvice(setup, bus, ranked, reasonsFor(setup, bus, ranked)),
    acrossLaws(setup.console, setup.sources[0].pan),
  ];
};

const KINDS = ["usual", "hard", "FOH free", "a bus each"];
const SIZES = [
  [8, 3],
  [16, 6],
  [64, 8],
  [64, 32],
  [128, 32],
  [512, 3],
  [LIMITS.sources, LIMITS.listeners],
];

const rows = SIZES.flatMap(([sources, listeners]) =>
  KINDS.map((kind) => {
    const setup = setupOf(sources, listeners, kind);
    const [bus] = setup.sums;
    const name = `${sources} channels, ${listeners} listeners, ${kind}`;
    let facts = 0;
    const all = time(() => {
      facts = [...whatIfs(setup, bus)].length;
    }, 1);
    return {
      setup: name,
      "recommendation ms": held(
        `recommendation, ${name}`,
        time(() => recommend(setup, bus)),
        MOST,
      ),
      ways: recommend(setup, bus).length,
      "images ms": time(() => imagesOf(setup)).toFixed(1),
      "what would change it, in a worker, ms": all.toFixed(0),
      facts,
      ...(sources === 64 && listeners === 8 && (kind === "usual" || kind === "hard")
        ? {
            "Image screen ms": held(
              `Image screen, ${name}`,
              time(() => shown(setup)),
              MOST_SHOWN,
            ),
          }
        : {}),
    };
  }),
);
console.table(rows);
