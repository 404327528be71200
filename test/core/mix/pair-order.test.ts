import { describe, expect, it } from "vitest";
import {
  inputOfSide,
  inputTrims,
  isSwapped,
  pairOrder,
  withBusSwapped,
  withSidesExchanged,
} from "../../../src/core/mix/pair-order";
import type { Bus, MonitorInput, Setup } from "../../../src/core/model/setup";
import { MONITOR_REST } from "../desk";
import { BUS, kit, side } from "../recommend/setups";

const L = side("m1", "left", 1);
const R = side("m1", "right", -2);
const at = (inputs: readonly (MonitorInput | null)[], over: Partial<Bus> = {}): Setup =>
  kit({ buses: [{ ...BUS, ...over }], monitor: { inputCount: 8, inputs, maxInputDbu: 20, ...MONITOR_REST } });
const order = (inputs: readonly (MonitorInput | null)[]) => pairOrder(at(inputs).monitor, BUS);

describe("a pair in the inputs", () => {
  it("lies normal, swapped, split, partly or not at all", () => {
    expect(order([null, L, R])).toBe("normal");
    expect(order([R, L])).toBe("swapped");
    expect(order([L, null, R])).toBe("split");
    expect(order([L])).toBe("partly");
    expect(order([null, R])).toBe("partly");
    expect(order([side("m2", "left"), side("m2", "right")])).toBe("unassigned");
  });

  it("is swapped as it lies; where that does not tell, as it is meant", () => {
    for (const reversed of [false, true]) {
      const is = (inputs: readonly (MonitorInput | null)[]) =>
        isSwapped(at(inputs, { swapped: reversed }), { ...BUS, swapped: reversed });
      expect(is([L, R])).toBe(false);
      expect(is([R, L])).toBe(true);
      for (const inputs of [[L, null, R], [L], []]) expect(is(inputs)).toBe(reversed);
    }
  });

  it("keeps each input's trim when it is swapped, and swapped twice is as it was", () => {
    for (const inputs of [[L, R], [R, L], [L, null, R], [null, L], [], [L, L, R]]) {
      const setup = at(inputs);
      const bus = setup.buses[0] as Bus;
      const once = withBusSwapped(setup, bus);
      expect(isSwapped(once, once.buses[0] as Bus)).toBe(!isSwapped(setup, bus));
      expect(once.monitor.inputs.map((s) => s?.trim)).toEqual(setup.monitor.inputs.map((s) => s?.trim));
      const twice = withBusSwapped(once, once.buses[0] as Bus);
      expect(twice.monitor).toEqual(setup.monitor);
      expect(isSwapped(twice, twice.buses[0] as Bus)).toBe(isSwapped(setup, bus));
    }
    const setup = at([L, R]);
    const once = withBusSwapped(setup, setup.buses[0] as Bus);
    expect(inputTrims(setup.monitor, BUS)).toEqual([1, -2]);
    expect(inputTrims(once.monitor, BUS)).toEqual([-2, 1]);
    expect(inputOfSide(once.monitor, BUS, "left")).toBe(1);
  });

  it("of which only one side has an input leaves it there when it is swapped: only the plan changes", () => {
    for (const inputs of [[L], [R]]) {
      const setup = at(inputs);
      const once = withBusSwapped(setup, setup.buses[0] as Bus);
      expect(once.monitor.inputs).toEqual(inputs);
      expect(once.buses[0]?.swapped).toBe(true);
    }
  });

  it("changes places without touching another pair or an input with nothing in it", () => {
    const others = [side("m2", "left"), null, side("m2", "right")];
    expect(withSidesExchanged(at([L, R, ...others]).monitor, BUS).inputs).toEqual([
      { ...L, feed: { ...L.feed, side: "right" } },
      { ...R, feed: { ...R.feed, side: "left" } },
      ...others,
    ]);
  });
});
