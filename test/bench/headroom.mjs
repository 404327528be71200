/*
 * Cost of one sum as sources grow: the playable ceiling alone, the search for the fewest sends, and all figures.
 * Run: node test/bench/sum.mjs
 */
import { bundle } from "../tools/bundle.mjs";
import { numbers } from "../tools/chance.mjs";

const { sumFigures } = await bundle("src/core/sum/figures.ts");
const { playablePeak } = await bundle("src/core/sum/playable.ts");
const { fewestPulls } = await bundle("src/core/sum/fewest.ts");

const LIMBS = [["hand"], ["hand"], ["hand", "hat-foot"], ["kick-foot"], ["whole"]];

const setupOf = (n, peakAt) => {
  const next = numbers(n);
  const pieces = Array.from({ length: n }, (_, i) => ({
    id: `p${i}`,
    limbs: LIMBS[i % LIMBS.length],
    player: i % 9 === 8 ? "Noor" : "drummer",
  }));
  const sources = pieces.map((p, i) => ({
    id: `s${i}`,
    piece: p.id,
    channels: i % 8 === 7 ? 2 : 1,
    pan: 2 * next() - 1,
    muted: false,
    inverted: i % 5 === 0,
    level: -20 - 20 * next(),
    peak: peakAt(next()),
    keepSides: false,
  }));
  const sum = {
    id: "m",
    stereo: true,
    sends: sources.map((s) => ({ source: s.id, level: 0, pan: null })),
    trim: 0,
    legTrim: [0, 0],
    legInverted: [false, false],
    reversed: false,
    folded: false,
    padDb: 0,
  };
  return {
    kit: { pieces },
    console: {
      law: "sine",
      centreDb: 3,
      reference: "sides",
      twoChannel: "balance-linear",
      levelStep: 0.1,
      outputDbu: 18,
    },
    sources,
    sums: [sum],
    monitor: { slots: [], inputMaxDbu: 15 },
    wishes: { margin: 6 },
    recording: null,
  };
};

const spread = (x) => -6 - 20 * x;
const arrivalsOf = (setup) =>
  setup.sources.map((source) => ({ part: { source }, rms: 0.1, peak: 10 ** (source.peak / 20), sign: 1 }));

/** Best of five rounds, µs of processor time a call: other programs do not count. */
const cost = (call) => {
  const count = (ms) => {
    const end = performance.now() + ms;
    let calls = 0;
    const start = process.cpuUsage().user;
    while (performance.now() < end) {
      call();
      calls += 1;
    }
    return (process.cpuUsage().user - start) / calls;
  };
  count(100);
  return Math.min(...Array.from({ length: 5 }, () => count(60)));
};

/** Equal peaks all over the pair with limits that just a few pulls cannot reach: the most there is to look through. */
const hardest = (n) => {
  const pans = Array.from({ length: n }, (_, i) => ((i + 0.5) / n) * (Math.PI / 2));
  const legs = [pans.map(Math.cos), pans.map(Math.sin)];
  const likely = (p) => {
    const top = Math.max(...p);
    return top + Math.sqrt(p.reduce((sum, x) => sum + x * x, 0) - top * top);
  };
  return [0.999, 0.99, 0.98, 0.97, 0.96, 0.95, 0.93, 0.9, 0.85, 0.8, 0.7, 0.6].map((share) =>
    legs.map((peaks) => ({ peaks, limit: share * likely(peaks) })),
  );
};

const row = (what, cells) => console.log(what.padEnd(34) + cells.map((c) => c.padStart(12)).join(""));
const SIZES = [8, 64, 512];
const micros = (value) => `${value.toFixed(1)} µs`;

row("sources", SIZES.map(String));
row(
  "playable ceiling, one leg",
  SIZES.map((n) => {
    const setup = setupOf(n, spread);
    const arrivals = arrivalsOf(setup);
    const pieces = new Map(setup.kit.pieces.map((p) => [p.id, p]));
    return micros(cost(() => playablePeak(arrivals, pieces)));
  }),
);
for (const [what, peak] of [
  ["all figures, over the margin", spread],
  ["all figures, margin kept", () => -80],
]) {
  row(
    what,
    SIZES.map((n) => {
      const setup = setupOf(n, peak);
      return micros(cost(() => sumFigures(setup, setup.sums[0])));
    }),
  );
}
row(
  "fewest sends, hardest case found",
  SIZES.map((n) => {
    const times = hardest(n).map((limits) => cost(() => fewestPulls(limits, 0.1, () => true)));
    return micros(Math.max(...times));
  }),
);
