import { describe, expect, it } from "vitest";
import { inputGains, inputOfSide, inputTrims, sidesOff } from "../../../src/core/mix/pair-order";
import type { Bus, Listener, MonitorInput, Setup } from "../../../src/core/model/setup";
import type { ListenerOutcome } from "../../../src/core/recommend/model";
import { reasonsFor } from "../../../src/core/recommend/reasons";
import { recommend } from "../../../src/core/recommend/recommend";
import { applyRecommendation } from "../../../src/core/recommend/steps";
import { type Image, imagesOf } from "../../../src/core/stereo/image";
import { expectNear } from "../../near";
import { MONITOR_REST } from "../desk";
import { BUS, DRUMMER, kit, randomSetup, side } from "../recommend/setups";

const L = side("m1", "left");
const R = side("m1", "right", -6);
const off = (input: MonitorInput): MonitorInput => ({ ...input, on: false });
const at = (
  inputs: readonly (MonitorInput | null)[],
  bus: Partial<Bus> = {},
  mara: Partial<Listener> = {},
): Setup => ({
  ...kit({ monitor: { inputCount: 8, inputs, maxInputDbu: 20, ...MONITOR_REST } }),
  buses: kit().buses.map((s) => ({ ...s, ...bus })),
  listeners: [{ ...DRUMMER, ...mara }],
});
const imageOf = (setup: Setup): Image => imagesOf(setup)[0] as Image;

describe("a side whose input is off", () => {
  it("is silent in its ear and changes nothing in the other", () => {
    const whole = imageOf(at([L, R])).rows;
    const half = imageOf(at([off(L), R])).rows;
    expect(half).toHaveLength(whole.length);
    half.forEach((row, i) => {
      expect(row.sides).toEqual([0, whole[i]?.sides[1]]);
      expect(row.difference).toBe(Number.POSITIVE_INFINITY);
      expect(row.heard).toBe("right");
    });
    expect(imageOf(at([off(L), off(R)])).rows.every((r) => r.heard === null)).toBe(true);
    expect(imageOf(at([off(L), off(R)])).score).toBe(null);
  });

  it("leaves both ears alike where the listener folds them", () => {
    const whole = imageOf(at([L, R])).rows;
    imageOf(at([off(L), R], {}, { mono: true })).rows.forEach((row, i) => {
      expect(row.sides).toEqual([whole[i]?.sides[1], whole[i]?.sides[1]]);
    });
  });

  it("arrives all the same by another input that is on", () => {
    const twice = [off(L), R, side("m1", "left", -3)];
    expect(inputOfSide(at(twice).monitor, BUS, "left")).toBe(2);
    expect(inputTrims(at(twice).monitor, BUS)).toEqual([-3, -6]);
    expect(sidesOff(at(twice).monitor, BUS)).toEqual([false, false]);
    expect(sidesOff(at([off(L), R, off(L)]).monitor, BUS)).toEqual([true, false]);
  });

  it("has gain 0; on, that of its trim; without an input, 1", () => {
    const [left, right] = inputGains(at([off(L), R]).monitor, BUS);
    expect(left).toBe(0);
    expectNear(right, 0.5011872336272722, 1e-15);
    expect(inputGains(at([]).monitor, BUS)).toEqual([1, 1]);
  });

  it("of a mono bus is both ears: one input for both, its trim too", () => {
    const rows = (input: MonitorInput) => imageOf(at([input], { stereo: false })).rows.map((r) => r.sides);
    expect(rows(off(L))).toEqual(kit().channels.map(() => [0, 0]));
    for (const [left, right] of rows({ ...L, trim: -4 })) expect(left).toBe(right);
    expect(rows({ ...L, trim: -4 })).not.toEqual(rows(L));
  });

  it("is among the reasons of a recommendation, with its input, and is gone once it is on", () => {
    const reasons = (inputs: readonly (MonitorInput | null)[]) => {
      const setup = at(inputs);
      const bus = setup.buses[0] as Bus;
      return reasonsFor(setup, bus, recommend(setup, bus)).off;
    };
    expect(reasons([off(L), R])).toEqual([{ side: "left", input: 0 }]);
    expect(reasons([L, off(R)])).toEqual([{ side: "right", input: 1 }]);
    expect(reasons([L, R])).toEqual([]);
  });
});

it("a pair of one's own takes over what is off, so that its image is as promised", () => {
  let seen = 0;
  for (const seed of [76, 224, 539, 607, 736]) {
    const setup = randomSetup(seed);
    const bus = setup.buses[0] as Bus;
    const off = sidesOff(setup.monitor, bus);
    expect(off).toContain(true);
    for (const own of recommend(setup, bus).filter((r) => r.criteria.inputs > 0)) {
      const after = applyRecommendation(setup, own);
      for (const copy of after.buses.filter((s) => !setup.buses.some((was) => was.id === s.id))) {
        expect(sidesOff(after.monitor, copy)).toEqual(off);
        seen += 1;
      }
      imagesOf(after).forEach(({ count, sidesLost }, i) => {
        const { tally } = own.outcomes[i] as ListenerOutcome;
        const { score: _, ...promised } = tally;
        expect({ ...count, sidesLost }).toEqual(promised);
      });
    }
  }
  expect(seen).toBeGreaterThan(4);
});
