import { describe, expect, it } from "vitest";
import { usageOf } from "../../../src/core/inputs/usage";
import type { Bus, Setup } from "../../../src/core/model/setup";
import { keyOf } from "../../../src/core/repair/parts";
import { applyRepair, partsOfPlan, type Repair, repairsFor } from "../../../src/core/repair/repairs";
import { search, searchBest } from "../../../src/core/repair/search";
import { situationOf } from "../../../src/core/repair/situation";
import { type Image, imagesOf } from "../../../src/core/stereo/image";
import { expectNear } from "../../near";
import { type Tried, type Triple, tryAll } from "./brute";
import { randomSetup } from "./setups";

/** Under mutation testing fewer: each of thousands of mutants runs them again. */
const SETUPS = process.env.MUTATE_TESTS ? 150 : 2400;
const busOf = (setup: Setup): Bus => setup.buses[0] as Bus;
const free = ({ monitor, preferences: wishes }: Setup): number =>
  wishes.inputsFixed ? 0 : Math.max(0, monitor.inputCount - monitor.inputs.filter(Boolean).length);

/** A recommendation as the trial of everything writes it. */
const asTried = (setup: Setup, repair: Repair): Tried => {
  const of = (isFirst: boolean): Triple => {
    const all: Triple = [0, 0, 0];
    for (const { listener, tally } of repair.outcomes) {
      if ((listener === setup.preferences.first) !== isFirst) continue;
      all[0] += tally.wrong + tally.sidesLost;
      all[1] += tally.centred;
      all[2] += -Math.round((tally.score ?? 0) * 10) || 0;
    }
    return all;
  };
  const { pair, own } = repair.parts;
  const state = `${pair.swap ? "swap" : "straight"} ${pair.fold ? "fold" : pair.pan}`;
  const order = setup.listeners
    .map((l) => own.find((o) => o.listener === l.id))
    .filter((o) => o !== undefined);
  const { inputs, moves, residual } = repair.criteria;
  return {
    key: [state, ...order.map((o) => `${o.listener}:${o.choice}`)].join(" "),
    first: of(true),
    others: of(false),
    inputs,
    moves,
    residual,
  };
};

const three = (a: Triple, b: Triple): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
const order = (a: Tried, b: Tried): number =>
  three(a.first, b.first) ||
  three(a.others, b.others) ||
  a.inputs - b.inputs ||
  a.moves - b.moves ||
  (Math.abs(a.residual - b.residual) < 1e-8 ? 0 : a.residual - b.residual);
const asGood = (a: Tried, b: Tried): boolean =>
  three(a.first, b.first) <= 0 &&
  three(a.others, b.others) <= 0 &&
  a.inputs <= b.inputs &&
  a.moves <= b.moves &&
  a.residual <= b.residual + 1e-8;

const audience = (setup: Setup): Image | undefined =>
  imagesOf(setup).find((_, at) => setup.listeners[at]?.kind === "audience");

describe("repairs", () => {
  it(`are the best of all combinations, ranked, on ${SETUPS} random setups`, () => {
    let combinations = 0;
    let kept = 0;
    const seen = new Set<string>();
    for (let seed = 0; seed < SETUPS; seed += 1) {
      const setup = randomSetup(seed);
      const tried = tryAll(setup, busOf(setup), free(setup));
      const byKey = new Map(tried.map((t) => [t.key, t]));
      const ranked = repairsFor(situationOf(setup, busOf(setup))).ranked.map((r) => asTried(setup, r));
      combinations += tried.length;
      kept += ranked.length;
      for (const repair of ranked) {
        seen.add(repair.key.replace(/(mara|l\d):/g, ""));
        const same = byKey.get(repair.key);
        expect(same, `seed ${seed}, ${repair.key}: the same figures`).toMatchObject({
          first: repair.first,
          others: repair.others,
          inputs: repair.inputs,
          moves: repair.moves,
        });
        expectNear(repair.residual, same?.residual ?? Number.NaN, 1e-8, `seed ${seed}, ${repair.key}`);
        const better = tried.find((t) => asGood(t, repair) && !asGood(repair, t));
        expect(better, `seed ${seed}: better than ${repair.key}`).toBeUndefined();
      }
      const missed = tried.find((t) => !ranked.some((r) => asGood(r, t)));
      expect(missed, `seed ${seed}: missed`).toBeUndefined();
      for (let at = 1; at < ranked.length; at += 1)
        expect(order(ranked[at - 1] as Tried, ranked[at] as Tried), `seed ${seed}: order`).toBeLessThan(0);
      const top = [...tried].sort(order)[0] as Tried;
      expect(order(top, ranked[0] as Tried), `seed ${seed}: the first is the first of all`).toBe(0);
    }
    // The setups are no monoculture.
    expect(combinations / SETUPS).toBeGreaterThan(80);
    expect(kept / SETUPS).toBeGreaterThan(2);
    for (const part of ["swap", "sum", "house", "fold", "flip", "own reversed", "own panned"])
      expect(
        [...seen].some((key) => key.includes(part)),
        part,
      ).toBe(true);
  }, 120_000);

  it("done, give exactly the images they promise, take the inputs they say, and leave FOH alone", () => {
    for (let seed = 5000; seed < 5400; seed += 1) {
      const setup = randomSetup(seed);
      for (const repair of repairsFor(situationOf(setup, busOf(setup))).ranked) {
        const after = applyRepair(setup, repair);
        imagesOf(after).forEach(({ listener, count, sidesLost, score }, at) => {
          const { listener: id, tally } = repair.outcomes[at] as Repair["outcomes"][number];
          const { score: promised, ...counts } = tally;
          expect(id).toBe(listener);
          expect({ ...count, sidesLost }, `seed ${seed}, ${repair.id}, ${listener}`).toEqual(counts);
          if (promised === null) expect(score).toBe(null);
          else expectNear(score, promised, 1e-12);
        });
        const used = (s: Setup): number => usageOf(s).used.length;
        expect(used(after) - used(setup)).toBe(repair.criteria.inputs);
        if (setup.preferences.inputsFixed) expect(repair.criteria.inputs).toBe(0);
        expect(usageOf(after).tooMany).toBeLessThanOrEqual(usageOf(setup).tooMany);
        if (repair.foh.length === 0) expect(audience(after)).toEqual(audience(setup));
        else expect(setup.preferences.fohFixed).toBe(false);
        expect(new Set(after.buses.map((s) => s.id)).size).toBe(after.buses.length);
      }
    }
  });

  it("always hold the choice to leave everything, which changes nothing", () => {
    for (let seed = 6000; seed < 6200; seed += 1) {
      const setup = randomSetup(seed);
      const leave = repairsFor(situationOf(setup, busOf(setup))).ranked.find(
        (r) => r.id === "leave",
      ) as Repair;
      expect(leave.steps).toEqual([]);
      expect(applyRepair(setup, leave)).toBe(setup);
    }
  });

  it("have the same first one by the short way", () => {
    for (let seed = 7000; seed < 7800; seed += 1) {
      const setup = randomSetup(seed);
      const situation = situationOf(setup, busOf(setup));
      for (const inputs of [0, 2, 3, 6]) {
        const [first] = search(situation, inputs);
        const short = searchBest(situation, inputs);
        if (!first || !short) throw new Error("nothing found");
        const { picks: _, options: __, ...criteria } = short;
        expect(first, `seed ${seed}, ${inputs} inputs`).toMatchObject(criteria);
        expect(keyOf(partsOfPlan(situation, short)), `seed ${seed}, ${inputs} inputs`).toBe(
          keyOf(partsOfPlan(situation, first)),
        );
      }
    }
  });
});
