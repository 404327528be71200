/*
 * Cost of one bus as channels grow: the loudest playable peak alone, and all figures.
 * Run: node test/bench/headroom.mjs
 */
import { bundle } from "../tools/bundle.mjs";

const { busFigures, headroomSetup, playablePeak } = await bundle("test/bench/core.ts");

const spread = (chance) => -6 - 20 * chance;
const contributionsOf = (setup) =>
  setup.channels.map((channel) => ({
    part: { channel },
    rms: 0.1,
    peak: 10 ** (channel.peak / 20),
    polarity: 1,
  }));

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

const row = (what, cells) => console.log(what.padEnd(34) + cells.map((c) => c.padStart(12)).join(""));
const SIZES = [8, 64, 512];
const micros = (value) => `${value.toFixed(1)} µs`;

row("channels", SIZES.map(String));
row(
  "loudest playable peak, one side",
  SIZES.map((n) => {
    const setup = headroomSetup(n, spread);
    const contributions = contributionsOf(setup);
    const pieces = new Map(setup.kit.pieces.map((p) => [p.id, p]));
    return micros(cost(() => playablePeak(contributions, pieces)));
  }),
);
for (const [what, peak] of [
  ["all figures, under the target headroom", spread],
  ["all figures, target headroom kept", () => -80],
]) {
  row(
    what,
    SIZES.map((n) => {
      const setup = headroomSetup(n, peak);
      return micros(cost(() => busFigures(setup, setup.buses[0])));
    }),
  );
}
