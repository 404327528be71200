/*
 * Expected cost of the looks that find the broken link, by the table of weights and costs: the plan of the app, front
 * to back, and halving, on every chain of the example and on random ones; then the time of a plan for the longest chain.
 * Front to back looks behind each link in turn until there is no signal; halving behind the link in the middle.
 * Run: node test/bench/trace.mjs
 */
import { performance } from "node:perf_hooks";
import { bundle } from "../tools/bundle.mjs";
import { noise } from "../tools/chance.mjs";

const { planSearch } = await bundle("src/core/inputs/chain-search.ts");
const { chainOf, routesOf } = await bundle("src/core/inputs/trace.ts");
const { LINK_RULES } = await bundle("src/core/inputs/trace-links.ts");
const { exampleSetup } = await bundle("src/document/example.ts");

/** Links of which the one in the middle, or the first, is looked behind; the nearest to it where nobody can look there. */
const nearest = (links, from, to, wanted) => {
  const open = links.map((_, at) => at).filter((at) => at >= from && at < to && links[at].lookCost !== null);
  return open.sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))[0] ?? null;
};
const ORDERS = {
  "the app": (links, from, to) => planSearch(links, from, to).look,
  "front to back": (links, from, to) => nearest(links, from, to, from),
  halving: (links, from, to) => nearest(links, from, to, Math.floor((from + to - 1) / 2)),
};

const expected = (links, order) => {
  const weight = links.reduce((sum, l) => sum + l.weight, 0);
  const costOf = (broken) => {
    let [from, to, cost] = [0, links.length - 1, 0];
    for (let look = order(links, from, to); look !== null; look = order(links, from, to)) {
      cost += links[look].lookCost;
      if (broken <= look) to = look;
      else from = look + 1;
    }
    return cost;
  };
  return links.reduce((sum, l, at) => sum + (l.weight / weight) * costOf(at), 0);
};

const example = exampleSetup();
const listener = example.listeners.find((l) => l.kind === "drummer");
const abouts = example.channels.flatMap(({ id }) =>
  routesOf(example, id).map((bus) => ({ what: "channel", channel: id, bus })),
);
const chains = abouts.map((about) => chainOf(example, listener, about).map(({ code }) => LINK_RULES[code]));
const next = noise(1);
const random = Array.from({ length: 1000 }, () =>
  Array.from({ length: 10 }, () => ({
    weight: 1 + 9 * Math.abs(next()),
    lookCost: 1 + 3 * Math.abs(next()),
  })),
);

const mean = (list) => list.reduce((sum, each) => sum + each, 0) / list.length;
console.log("| expected cost | example | random |\n| --- | --- | --- |");
for (const [name, order] of Object.entries(ORDERS)) {
  const of = (all) => mean(all.map((links) => expected(links, order))).toFixed(2);
  console.log(`| ${name} | ${of(chains)} | ${of(random)} |`);
}

const [longest] = [...chains].sort((a, b) => b.length - a.length);
const ROUNDS = 1000;
const start = performance.now();
for (let round = 0; round < ROUNDS; round += 1) planSearch(longest);
console.log(`\n${longest.length} links: ${((performance.now() - start) / ROUNDS).toFixed(3)} ms a plan`);
