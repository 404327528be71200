import { describe, expect, it } from "vitest";
import { usageOf } from "../../../src/core/inputs/usage";
import type { Bus, Setup } from "../../../src/core/model/setup";
import { LAWS } from "../../../src/core/pan/laws";
import type { Recommendation } from "../../../src/core/recommend/model";
import { recommend } from "../../../src/core/recommend/recommend";
import { applyRecommendation, withStep } from "../../../src/core/recommend/steps";
import { type Image, imagesOf } from "../../../src/core/stereo/image";
import { expectNear } from "../../near";
import { MONITOR_REST } from "../desk";
import { all, busOf, crossed, first, heardBy, ids, ranked, wishing, withBus } from "./ranked";
import { AUDIENCE, channel, DRUMMER, kit, listener, randomSetup, side, withChannel } from "./setups";

const KEYS = channel("keys", { name: "Keys", lines: 2, keepSides: true });
const FOUR = '["hat","tom","floor","ride"]';
const earsOf = (setup: Setup, id: string) =>
  imagesOf(setup)
    .find((i) => i.listener === id)
    ?.rows.map((r) => [r.channel, ...r.sides]);

/** The gains the drummer gets of a swap, and of every pan mirrored. */
const swapAndRepan = (setup: Setup) => {
  const swap = withStep(setup, { step: "swap", bus: "m1", inputs: [3, 2] });
  const repan = withBus(setup, {
    sends: busOf(setup).sends.map((s) => ({
      ...s,
      pan: -(setup.channels.find((x) => x.id === s.channel)?.pan ?? 0),
    })),
  });
  return [earsOf(swap, "mara"), earsOf(repan, "mara")] as const;
};

describe("a swap and every pan mirrored", () => {
  it("give the same gains to 1e-12 for every law with equal trims", () => {
    for (const law of Object.keys(LAWS) as (keyof typeof LAWS)[])
      for (const reference of ["sides", "centre"] as const) {
        const setup = withBus(kit(), { trim: -2, sideTrim: [1.5, 1.5] });
        const [swap, repan] = swapAndRepan({ ...setup, desk: { ...setup.desk, law, reference } });
        swap?.forEach(([id, l, r], at) => {
          expect(repan?.[at]?.[0]).toBe(id);
          expect(Math.abs((repan?.[at]?.[1] as number) - (l as number))).toBeLessThan(1e-12);
          expect(Math.abs((repan?.[at]?.[2] as number) - (r as number))).toBeLessThan(1e-12);
        });
      }
  });

  it("differ by exactly the difference of unequal side trims, which is the residual", () => {
    const setup = withBus(withChannel(kit(), KEYS), { sideTrim: [0, -2.25] });
    const [swap, repan] = swapAndRepan(setup);
    swap?.forEach(([id, l, r], at) => {
      if (id === "keys") return;
      const off = [l, r].map((g, ear) => 20 * Math.log10((repan?.[at]?.[ear + 1] as number) / (g as number)));
      expect(off[0]).toBeCloseTo(2.25, 9);
      expect(off[1]).toBeCloseTo(-2.25, 9);
    });
    expect(ranked(setup, `bus ${FOUR}`).criteria.residual).toBeCloseTo(2.25, 9);
    expect(ranked(setup, "swap").criteria.residual).toBe(0);
  });
});

describe("the recommendation", () => {
  it("for a drummer alone on the bus is a swap; for a left-handed one with those pans, to leave it", () => {
    expect(first(kit()).id).toBe("swap");
    const pieces = kit().kit.pieces.map((p) => ({ ...p, x: -p.x }));
    expect(first({ ...kit(), kit: { ...kit().kit, pieces } }).id).toBe("leave");
  });

  it("takes a flip out again, or leaves it in", () => {
    const flipped = { ...DRUMMER, flipped: true };
    const setup = { ...kit(), listeners: [AUDIENCE, flipped] };
    expect(first(setup).id).toBe("leave");
    const swapped = withStep(setup, { step: "swap", bus: "m1", inputs: null });
    const wrong = { ...swapped, listeners: [AUDIENCE, flipped, listener("ines", { facing: 0 })] };
    expect(first(wrong).id).toBe("flip mara");
    expect(first(wrong).steps).toEqual([{ step: "flip", listener: "mara", flipped: false }]);
  });

  it("re-pans what a swap leaves wrong: one channel that must keep its side, two channels can’t be", () => {
    const both = withChannel(
      withChannel(kit(), channel("guitar", { pan: 0.4, keepSides: true })),
      channel("keys", { lines: 2, keepSides: true, pan: 0.5 }),
    );
    // Four pans put the drums right; by a swap the guitar is panned back, and the keys are lost.
    expect(ids(both).slice(0, 2)).toEqual([`bus ${FOUR}`, 'swap; bus ["guitar"]']);
    expect(ranked(both, 'swap; bus ["guitar"]').criteria.first[0]).toBe(1);
  });

  it("re-pans a channel that is heard in the middle and should not be", () => {
    // Its trim pulls the snare, panned a little to the right, back to the middle: mirrored it is heard at the left.
    const snare = channel("snare", { piece: "hat", pan: 0.1 });
    const setup = withBus(withChannel(kit(), snare), { sideTrim: [1.4, 0] });
    const now = imagesOf(setup)
      .find((i) => i.listener === "mara")
      ?.rows.find((r) => r.channel === "snare");
    expect(now?.placement).toBe("centred");
    const swapped = withStep(setup, { step: "swap", bus: "m1", inputs: [3, 2] });
    const best = first(swapped);
    expect(best.parts.mirrored).toContain("snare");
    const after = imagesOf(applyRecommendation(swapped, best)).find((i) => i.listener === "mara");
    expect(after?.count).toMatchObject({ wrong: 0, centred: 0 });
  });

  it("sets no pan for a hair’s breadth of the score, beside those that it must set", () => {
    // A bell that is heard in the middle whichever way it is panned.
    const bell = channel("bell", { piece: "hat", pan: 0.02 });
    expect(first(withChannel(withChannel(kit(), KEYS), bell)).id).toBe(`bus ${FOUR}`);
  });

  it("re-pans for the rest where who matters most has a bus of their own", () => {
    // Mara faces the audience, and she alone hears the ride from the other side of a second kit.
    const setup = wishing(
      heardBy(withChannel(kit(), KEYS), listener("ines", { facing: 0 }), listener("theo", { facing: 0 })),
      { first: "ines" },
    );
    const turned = heardBy(
      setup,
      listener("ines", { facing: 180 }),
      listener("theo", { facing: 0 }),
      listener("lea", { facing: 0 }),
    );
    const best = first(wishing(turned, { first: "ines" }));
    // Ines is right as it is; the others need the pans, so she gets the bus as it is for herself.
    expect(best.id).toBe(`bus ${FOUR}; own ines`);
    expect([best.criteria.first[0], best.criteria.others[0], best.criteria.inputs]).toEqual([0, 0, 2]);
  });

  it("takes the first listener’s need before the others’, wherever they stand in the list", () => {
    const ines = listener("ines", { facing: 180 });
    const setup = wishing(
      { ...withChannel(kit(), KEYS), listeners: [AUDIENCE, ines, listener("theo"), DRUMMER] },
      { first: "audience", inputsFixed: true },
    );
    expect(first(setup).id).toBe(`bus ${FOUR}; flip ines`);
  });

  it("gives a bus of one’s own only where there are inputs for it, to who matters most first", () => {
    const both = heardBy(withChannel(kit(), KEYS), listener("ines", { name: "Ines", facing: 180 }));
    expect(first(both).id).toBe(`own mara ${FOUR}`);
    const full = { ...both, monitor: { ...both.monitor, inputCount: 3 } };
    expect(all(full).every((r) => r.criteria.inputs === 0)).toBe(true);
    expect(first(full).id).toBe(`bus ${FOUR}; flip ines`);
  });

  it("keeps the only room for a bus for who matters most, where another gains as much by it", () => {
    const others = ["theo", "lea", "kim"].map((id) => listener(id));
    const [zoe, ines] = [listener("zoe", { facing: 180 }), listener("ines", { facing: 180 })];
    const { monitor } = kit();
    const setup = {
      ...withChannel(kit(), KEYS),
      listeners: [AUDIENCE, zoe, ines, ...others],
      monitor: { ...monitor, inputCount: 4 },
    };
    const best = first(wishing(setup, { first: "ines" }));
    expect(best.id).toBe(`bus ${FOUR}; flip zoe; own ines`);
    expect([best.criteria.first[0], best.criteria.others[0]]).toEqual([0, 1]);
  });

  it("sets channel pans only where FOH may change, and says which", () => {
    const fixed = wishing(crossed(), { fohFixed: true });
    expect(first(fixed).id).toBe("leave");
    expect(all(fixed).every((r) => r.foh.length === 0)).toBe(true);
    const best = first(crossed());
    expect(best.id).toBe(`swap; foh ${FOUR}`);
    expect(best.foh).toEqual(["hat", "tom", "floor", "ride"]);
    expect(imagesOf(applyRecommendation(crossed(), best)).map((i) => i.count.wrong)).toEqual([0, 0]);
  });

  it("goes by channel pans alone where nobody hears the bus, and where it is mono", () => {
    const alone = { ...crossed(), listeners: [AUDIENCE, { ...DRUMMER, bus: null }] };
    expect(ids(alone)).toEqual([`foh ${FOUR}`, "leave"]);
    for (const same of [{ stereo: false }, { folded: true }])
      expect(ids(withBus(crossed(), same))).toEqual([`foh ${FOUR}`, "leave"]);
  });

  it("lets the others decide for somebody side-on, and everybody where nobody matters most", () => {
    const rafi = heardBy(kit(), listener("rafi", { name: "Rafi", facing: 90 }));
    expect(first(wishing(rafi, { first: "rafi" })).id).toBe("swap");
    expect(first(wishing(kit(), { first: "nobody" })).id).toBe("swap");
  });

  it("does not count an audience among those who hear a bus", () => {
    const setup = { ...kit(), listeners: [{ ...AUDIENCE, bus: "m1" }] };
    expect(ids(setup)).toEqual(["leave"]);
  });

  it("finds nothing to do in silence", () => {
    const off = (only: "left" | "right") => ({ ...side("m1", only), on: false });
    const silent = kit({
      monitor: {
        inputCount: 4,
        inputs: [off("left"), off("right"), null, null],
        maxInputDbu: 20,
        ...MONITOR_REST,
      },
    });
    expect(ids(silent)).toEqual(["leave"]);
    expect(first(silent).outcomes.find((o) => o.listener === "mara")?.tally.unplaced).toBe(5);
    expect(ids(withBus(kit(), { sends: [] }))).toEqual(["leave"]);
  });

  it("tells channels apart whose ids run together", () => {
    const channels = ["a", "b", "a b", 'a","b'].map((id) => channel(id, { piece: "hat", pan: 0.7 }));
    const sends = channels.map((s) => ({
      channel: s.id,
      on: true,
      level: -6,
      tap: "post-fader" as const,
      pan: null,
    }));
    const setup = withBus({ ...kit(), channels }, { sends });
    const own = (id: string) => ({ ...channel("keys", { lines: 2, keepSides: true }), id });
    const mixed = withChannel(setup, own("keys"));
    expect(first(mixed).parts.mirrored).toEqual(["a", "b", "a b", 'a","b']);
    expect(new Set(ids(mixed)).size).toBe(ids(mixed).length);
  });
});

const audience = (setup: Setup): Image | undefined =>
  imagesOf(setup).find((_, at) => setup.listeners[at]?.kind === "audience");

describe("recommendations on random setups", () => {
  it("applied, give exactly the images they promise, take the inputs they say, and leave FOH alone", () => {
    const kinds = new Set<string>();
    for (let seed = 5000; seed < 5400; seed += 1) {
      const setup = randomSetup(seed);
      for (const one of recommend(setup, setup.buses[0] as Bus)) {
        const after = applyRecommendation(setup, one);
        imagesOf(after).forEach(({ listener: who, count, sidesLost, score }, at) => {
          const { listener: id, tally } = one.outcomes[at] as Recommendation["outcomes"][number];
          const { score: promised, ...counts } = tally;
          expect(id).toBe(who);
          expect({ ...count, sidesLost }, `seed ${seed}, ${one.id}, ${who}`).toEqual(counts);
          if (promised === null) expect(score).toBe(null);
          else expectNear(score, promised, 1e-12);
        });
        // Ranked by what is promised.
        const wrong = one.outcomes.reduce((sum, { tally }) => sum + tally.wrong + tally.sidesLost, 0);
        expect(one.criteria.first[0] + one.criteria.others[0], `seed ${seed}, ${one.id}`).toBe(wrong);
        const used = (s: Setup): number => usageOf(s).used.length;
        expect(used(after) - used(setup)).toBe(one.criteria.inputs);
        if (setup.preferences.inputsFixed) expect(one.criteria.inputs).toBe(0);
        expect(usageOf(after).tooMany).toBeLessThanOrEqual(usageOf(setup).tooMany);
        if (one.foh.length === 0) expect(audience(after)).toEqual(audience(setup));
        else expect(setup.preferences.fohFixed).toBe(false);
        expect(new Set(after.buses.map((s) => s.id)).size).toBe(after.buses.length);
        const made = one.steps.reduce((sum, s) => sum + (s.step === "own bus" ? 2 + s.pans.length : 1), 0);
        expect(made, `seed ${seed}, ${one.id}: moves`).toBe(one.criteria.moves);
        for (const word of one.id.match(/swap|bus|foh|fold|flip|own/g) ?? []) kinds.add(word);
      }
    }
    expect([...kinds].sort()).toEqual(["bus", "flip", "foh", "fold", "own", "swap"]);
  });

  it("always hold the one to leave everything, which changes nothing; none is beaten by another in everything", () => {
    for (let seed = 6000; seed < 6200; seed += 1) {
      const setup = randomSetup(seed);
      const found = recommend(setup, setup.buses[0] as Bus);
      const leave = found.find((r) => r.id === "leave") as Recommendation;
      expect(leave.steps).toEqual([]);
      expect(applyRecommendation(setup, leave)).toBe(setup);
      const figures = ({ criteria: c }: Recommendation): number[] => [
        c.inputs,
        c.moves,
        Math.round(c.residual * 1e6),
      ];
      found.forEach((one, at) => {
        for (const before of found.slice(0, at)) {
          const same =
            JSON.stringify([before.criteria.first, before.criteria.others]) ===
            JSON.stringify([one.criteria.first, one.criteria.others]);
          const cheaper = figures(one).some((n, i) => n < (figures(before)[i] as number));
          if (same) expect(cheaper, `seed ${seed}: ${one.id} after ${before.id}`).toBe(true);
        }
      });
    }
  });
});

describe("mixers that cannot flip L/R", () => {
  const withFlip = (setup: Setup, flip: boolean): Setup => ({
    ...setup,
    monitor: { ...setup.monitor, mixers: { ...setup.monitor.mixers, flip } },
  });
  const flips = (setup: Setup): number =>
    all(setup).filter((r) => r.steps.some((s) => s.step === "flip")).length;

  it("are never asked to, and those that can are", () => {
    let offered = 0;
    for (let seed = 0; seed < 40; seed += 1) {
      const setup = randomSetup(seed);
      offered += flips(withFlip(setup, true));
      expect(flips(withFlip(setup, false))).toBe(0);
    }
    expect(offered).toBeGreaterThan(0);
  });
});
