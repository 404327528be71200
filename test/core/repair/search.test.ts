import { describe, expect, it } from "vitest";
import { type Image, imagesOf } from "../../../src/core/image";
import { usageOf } from "../../../src/core/patch/usage";
import { keyOf } from "../../../src/core/repair/parts";
import { applyRepair, partsOfPlan, type Repair, repairsFor } from "../../../src/core/repair/repairs";
import { search, searchBest } from "../../../src/core/repair/search";
import { situationOf } from "../../../src/core/repair/situation";
import type { Setup, Sum } from "../../../src/core/setup";
import { expectNear } from "../../near";
import { type Tried, type Triple, tryAll } from "./brute";
import { randomSetup } from "./setups";

/** Under mutation testing fewer: each of thousands of mutants runs them again. */
const SETUPS = process.env.MUTATE_TESTS ? 150 : 2400;
const sumOf = (setup: Setup): Sum => setup.sums[0] as Sum;
const free = ({ monitor, wishes }: Setup): number =>
  wishes.slotsFixed ? 0 : Math.max(0, monitor.slotCount - monitor.slots.filter(Boolean).length);

/** A repair as the trial of everything writes it. */
const asTried = (setup: Setup, repair: Repair): Tried => {
  const of = (isFirst: boolean): Triple => {
    const all: Triple = [0, 0, 0];
    for (const { listener, tally } of repair.outcomes) {
      if ((listener === setup.wishes.first) !== isFirst) continue;
      all[0] += tally.wrong + tally.sidesLost;
      all[1] += tally.flat;
      all[2] += -Math.round((tally.score ?? 0) * 10) || 0;
    }
    return all;
  };
  const { pair, own } = repair.parts;
  const state = `${pair.swap ? "swap" : "straight"} ${pair.fold ? "fold" : pair.pan}`;
  const order = setup.listeners
    .map((l) => own.find((o) => o.listener === l.id))
    .filter((o) => o !== undefined);
  const { slots, moves, residual } = repair.criteria;
  return {
    key: [state, ...order.map((o) => `${o.listener}:${o.choice}`)].join(" "),
    first: of(true),
    others: of(false),
    slots,
    moves,
    residual,
  };
};

const three = (a: Triple, b: Triple): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
const order = (a: Tried, b: Tried): number =>
  three(a.first, b.first) ||
  three(a.others, b.others) ||
  a.slots - b.slots ||
  a.moves - b.moves ||
  (Math.abs(a.residual - b.residual) < 1e-8 ? 0 : a.residual - b.residual);
const asGood = (a: Tried, b: Tried): boolean =>
  three(a.first, b.first) <= 0 &&
  three(a.others, b.others) <= 0 &&
  a.slots <= b.slots &&
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
      const tried = tryAll(setup, sumOf(setup), free(setup));
      const byKey = new Map(tried.map((t) => [t.key, t]));
      const ranked = repairsFor(situationOf(setup, sumOf(setup))).ranked.map((r) => asTried(setup, r));
      combinations += tried.length;
      kept += ranked.length;
      for (const repair of ranked) {
        seen.add(repair.key.replace(/(mara|l\d):/g, ""));
        const same = byKey.get(repair.key);
        expect(same, `seed ${seed}, ${repair.key}: the same figures`).toMatchObject({
          first: repair.first,
          others: repair.others,
          slots: repair.slots,
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

  it("done, give exactly the images they promise, take the slots they say, and leave the house alone", () => {
    for (let seed = 5000; seed < 5400; seed += 1) {
      const setup = randomSetup(seed);
      for (const repair of repairsFor(situationOf(setup, sumOf(setup))).ranked) {
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
        expect(used(after) - used(setup)).toBe(repair.criteria.slots);
        if (setup.wishes.slotsFixed) expect(repair.criteria.slots).toBe(0);
        expect(usageOf(after).tooMany).toBeLessThanOrEqual(usageOf(setup).tooMany);
        if (repair.house.length === 0) expect(audience(after)).toEqual(audience(setup));
        else expect(setup.wishes.houseFixed).toBe(false);
        expect(new Set(after.sums.map((s) => s.id)).size).toBe(after.sums.length);
      }
    }
  });

  it("always hold the choice to leave everything, which changes nothing", () => {
    for (let seed = 6000; seed < 6200; seed += 1) {
      const setup = randomSetup(seed);
      const leave = repairsFor(situationOf(setup, sumOf(setup))).ranked.find(
        (r) => r.id === "leave",
      ) as Repair;
      expect(leave.steps).toEqual([]);
      expect(applyRepair(setup, leave)).toBe(setup);
    }
  });

  it("have the same first one by the short way", () => {
    for (let seed = 7000; seed < 7800; seed += 1) {
      const setup = randomSetup(seed);
      const situation = situationOf(setup, sumOf(setup));
      for (const slots of [0, 2, 3, 6]) {
        const [first] = search(situation, slots);
        const short = searchBest(situation, slots);
        if (!first || !short) throw new Error("nothing found");
        const { picks: _, options: __, ...criteria } = short;
        expect(first, `seed ${seed}, ${slots} slots`).toMatchObject(criteria);
        expect(keyOf(partsOfPlan(situation, short)), `seed ${seed}, ${slots} slots`).toBe(
          keyOf(partsOfPlan(situation, first)),
        );
      }
    }
  });
});
