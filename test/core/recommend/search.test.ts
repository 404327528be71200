import { beforeAll, describe, expect, it } from "vitest";
import type { Bus, Setup } from "../../../src/core/model/setup";
import type { Criteria } from "../../../src/core/recommend/model";
import { recommend } from "../../../src/core/recommend/recommend";
import { freeInputs } from "../../../src/core/recommend/situation";
import { tryAll } from "./brute";
import { listener, numbers, randomSetup } from "./setups";
import { shortfall } from "./shortfall";

/** Under mutation testing fewer: each of thousands of mutants runs them again. */
const SETUPS = process.env.MUTATE_TESTS ? 60 : 600;
const busOf = (setup: Setup): Bus => setup.buses[0] as Bus;

/** More listeners than are gone through one by one, facing every way, on few channels. */
const crowdedSetup = (seed: number): Setup => {
  const setup = randomSetup(seed);
  const next = numbers(seed + 10_000);
  for (let warm = 0; warm < 5; warm += 1) next();
  const channels = setup.channels.slice(0, 5);
  const crowd = Array.from({ length: 4 }, (_, i) =>
    listener(`c${i}`, {
      facing: 15 * Math.floor(next() * 24) - 180,
      flipped: next() < 0.2,
      mono: next() < 0.1,
    }),
  );
  const buses = setup.buses.map((s) => ({
    ...s,
    sends: s.sends.filter((send) => channels.some(({ id }) => id === send.channel)),
  }));
  return { ...setup, channels, buses, listeners: [...setup.listeners, ...crowd] };
};

const trimmed = ({ buses, monitor }: Setup): boolean =>
  buses[0]?.sideTrim[0] !== buses[0]?.sideTrim[1] || monitor.inputs.some((s) => s && s.trim !== 0);
const keeping = ({ channels }: Setup): boolean => channels.some((s) => s.keepSides);

describe("the recommendation against every combination there is", () => {
  const found: { seed: number; setup: Setup; short: ReturnType<typeof shortfall>; criteria: Criteria }[] = [];
  beforeAll(() => {
    for (let seed = 0; seed < SETUPS; seed += 1) {
      const setup = randomSetup(seed);
      const best = tryAll(setup, busOf(setup), freeInputs(setup));
      const { criteria } = recommend(setup, busOf(setup))[0] as { criteria: Criteria };
      found.push({ seed, setup, short: shortfall(criteria, best), criteria });
    }
  }, 300_000);
  const seeds = (short: string, which: (setup: Setup) => boolean = () => true): number[] =>
    found.filter((f) => f.short === short && which(f.setup)).map((f) => f.seed);

  it("is never worse for the listener who matters most, nor takes more inputs", () => {
    expect(seeds("first")).toEqual([]);
    expect(seeds("inputs")).toEqual([]);
  });

  it("is never better than everything: both mean the same", () => {
    expect(seeds("better")).toEqual([]);
  });

  it("is worse for the others in at most 1 %, and takes more moves in at most 1 %", () => {
    expect(seeds("others").length, seeds("others").join()).toBeLessThanOrEqual(SETUPS / 100);
    expect(seeds("moves").length, seeds("moves").join()).toBeLessThanOrEqual(SETUPS / 100);
  });

  it("is tried with unequal trims, with channels that keep L/R, and where FOH may change", () => {
    expect(found.filter((f) => trimmed(f.setup)).length).toBeGreaterThan(SETUPS / 4);
    expect(found.filter((f) => keeping(f.setup)).length).toBeGreaterThan(SETUPS / 4);
    expect(found.filter((f) => !f.setup.preferences.fohFixed).length).toBeGreaterThan(SETUPS / 4);
    expect(found.filter((f) => f.criteria.moves > 0).length).toBeGreaterThan(SETUPS / 4);
  });
});

it("of a crowd that faces every way it is not worse either", () => {
  const crowds = process.env.MUTATE_TESTS ? 10 : 50;
  const short = Array.from({ length: crowds }, (_, seed) => {
    const setup = crowdedSetup(seed);
    const best = tryAll(setup, busOf(setup), freeInputs(setup));
    const { criteria } = recommend(setup, busOf(setup))[0] as { criteria: Criteria };
    return shortfall(criteria, best);
  });
  expect(short.filter((s) => s === "first" || s === "inputs" || s === "better")).toEqual([]);
  expect(short.filter((s) => s !== null).length).toBeLessThanOrEqual(1);
}, 300_000);
