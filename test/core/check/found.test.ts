import { describe, expect, it } from "vitest";
import { checkOf } from "../../../src/core/check/check";
import type { Fault } from "../../../src/core/check/faults";
import { putIntoSetup } from "../../../src/core/check/found";
import { evaluate } from "../../../src/core/evaluate";
import { pairOrder } from "../../../src/core/mix/pair-order";
import type { Bus, Listener, MonitorInput, Setup } from "../../../src/core/model/setup";
import { drummer, setupWith } from "./kits";

const patched = setupWith(8, "sine");
const bare: Setup = {
  ...patched,
  monitor: { ...patched.monitor, inputs: patched.monitor.inputs.map(() => null) },
};
const faultsIn = (setup: Setup): Fault[] => checkOf(setup, drummer).sets.flatMap((s) => s.faults);

/** In words of a setup only where the sides have inputs. */
const BY_INPUTS = ["left side only", "right side only", "silent"];
const EXPRESSED = [
  "planned",
  "reversed",
  "flipped",
  "folded",
  "inverted",
  "all at centre",
  "channel wrong",
  "channel missing",
];

describe.each([
  ["a patched pair", patched],
  ["a pair not patched yet", bare],
])("the found state of %s", (_, setup) => {
  const faults = faultsIn(setup);
  const { strikes } = checkOf(setup, drummer);

  it.each(faults.map((f) => [f.id, f] as const))(
    "%s: the image agrees with what the ears get",
    (_id, fault) => {
      const found = putIntoSetup(setup, drummer, fault);
      const byInputs = setup === patched && BY_INPUTS.includes(fault.kind);
      expect(found !== null).toBe(EXPRESSED.includes(fault.kind) || byInputs);
      if (!found) return;
      const rows = evaluate(found).images[0]?.rows ?? [];
      strikes.forEach((strike, at) => {
        const sides = rows.find((r) => r.channel === strike.channels[0])?.sides ?? [0, 0];
        sides.forEach((gain, ear) => {
          expect(gain).toBeCloseTo(fault.images[at]?.sides[ear] as number, 12);
        });
      });
    },
  );

  it("leaves FOH alone", () => {
    for (const fault of faults)
      expect(putIntoSetup(setup, drummer, fault)?.channels ?? setup.channels).toBe(setup.channels);
  });
});

it("a reversal found is put into the inputs where the pair lies in them", () => {
  const reversed = faultsIn(patched).find((f) => f.kind === "reversed") as Fault;
  const found = putIntoSetup(patched, drummer, reversed) as Setup;
  expect(pairOrder(patched.monitor, patched.buses[0] as Bus)).toBe("reversed");
  expect(pairOrder(found.monitor, found.buses[0] as Bus)).toBe("straight");
});

it("a side found missing is off in its input, and found back again is on", () => {
  const of = (setup: Setup, id: string) => faultsIn(setup).find((f) => f.id === id) as Fault;
  const on = (setup: Setup) => setup.monitor.inputs.slice(2, 4).map((s) => s?.on);
  for (const [id, are] of [
    ["left side only", [false, true]],
    ["right side only", [true, false]],
    ["silent", [false, false]],
  ] as const) {
    const found = putIntoSetup(patched, drummer, of(patched, id)) as Setup;
    expect(on(found)).toEqual(are);
    expect(of(found, "planned").images).toEqual(of(patched, id).images);
    expect(putIntoSetup(found, drummer, of(found, "switched on"))).toEqual(patched);
  }
});

it("a mono bus found silent is off in its one input, in both ears", () => {
  const buses = patched.buses.map((s) => ({ ...s, stereo: false }));
  const inputs = patched.monitor.inputs.map((s, at) => (at === 3 ? s : null));
  const mono: Setup = { ...patched, buses, monitor: { ...patched.monitor, inputs } };
  const silent = faultsIn(mono).find((f) => f.kind === "silent") as Fault;
  const found = putIntoSetup(mono, drummer, silent) as Setup;
  expect(found.monitor.inputs[3]?.on).toBe(false);
  expect(evaluate(found).images[0]?.rows.map((r) => r.sides)).toEqual(found.channels.map(() => [0, 0]));
});

it("with one side in no input, a side that has none cannot be put in as off", () => {
  const inputs = patched.monitor.inputs.map((s, at) => (at === 3 ? null : s));
  const partly: Setup = { ...patched, monitor: { ...patched.monitor, inputs } };
  const put = (id: string) =>
    putIntoSetup(partly, drummer, faultsIn(partly).find((f) => f.id === id) as Fault);
  expect([put("silent"), put("right side only")]).toEqual([null, null]);
  expect(put("left side only")?.monitor.inputs[2]?.on).toBe(false);
});

it("a reversal found leaves each input its trim and switch", () => {
  const inputs = patched.monitor.inputs.map((s, at) => (s && at === 2 ? { ...s, trim: -3 } : s));
  const trimmed: Setup = { ...patched, monitor: { ...patched.monitor, inputs } };
  const reversed = faultsIn(trimmed).find((f) => f.kind === "reversed") as Fault;
  const found = putIntoSetup(trimmed, drummer, reversed) as Setup;
  expect(found.monitor.inputs.map((s) => s?.trim)).toEqual(inputs.map((s) => s?.trim));
  expect(faultsIn(found).find((f) => f.kind === "planned")?.images).toEqual(reversed.images);
});

it("polarity found is put in, which levels alone do not show", () => {
  const inverted = faultsIn(patched).find((f) => f.kind === "inverted") as Fault;
  const found = putIntoSetup(patched, drummer, inverted) as Setup;
  expect(faultsIn(found).find((f) => f.kind === "planned")?.images).toEqual(inverted.images);
});

it("nothing is put in for a listener without a bus", () => {
  const [fault] = faultsIn(patched);
  expect(putIntoSetup(patched, { ...drummer, bus: null }, fault as Fault)).toBeNull();
});

describe("what is put in changes nothing else", () => {
  const fault = (setup: Setup, id: string) => faultsIn(setup).find((f) => f.id === id) as Fault;
  const side = (side: "left" | "right", bus = "drums", on = true): MonitorInput => ({
    feed: { kind: "bus", bus, side: side },
    on,
    trim: 0,
  });
  const lying = (inputs: readonly (MonitorInput | null)[]): Setup => ({
    ...patched,
    monitor: { ...patched.monitor, inputs },
  });
  const on = (setup: Setup | null) => setup?.monitor.inputs.map((s) => s?.on ?? null);

  it("a pair that lies in order is reversed in its inputs, and the plan stays", () => {
    const straight = lying([side("left"), side("right")]);
    const found = putIntoSetup(straight, drummer, fault(straight, "reversed"));
    expect(found?.monitor.inputs).toEqual([side("right"), side("left")]);
    expect(found?.buses).toEqual(straight.buses);
  });

  it("a side in the very first input can be off, and no other sum goes off with it", () => {
    const two = lying([side("left"), side("right"), side("left", "other"), side("right", "other")]);
    const buses = [...two.buses, { ...(two.buses[0] as Bus), id: "other" }];
    const both = { ...two, buses };
    expect(on(putIntoSetup(both, drummer, fault(both, "right side only")))).toEqual([
      false,
      true,
      true,
      true,
    ]);
    expect(on(putIntoSetup(both, drummer, fault(both, "silent")))).toEqual([false, false, true, true]);
  });

  it("only the side that was off is switched on, whether or not the other one has an input", () => {
    const spare = lying([side("left"), side("right", "drums", false), null, side("left", "drums", false)]);
    expect(on(putIntoSetup(spare, drummer, fault(spare, "switched on")))).toEqual([true, true, null, false]);
    const alone = lying([side("right", "drums", false)]);
    expect(on(putIntoSetup(alone, drummer, fault(alone, "switched on")))).toEqual([true]);
  });

  it("a flip is put in for the listener who was asked alone", () => {
    const guest: Listener = { ...drummer, id: "guest", kind: "performer" };
    const two = { ...patched, listeners: [drummer, guest] };
    const found = putIntoSetup(two, drummer, fault(two, "flipped"));
    expect(found?.listeners).toEqual([{ ...drummer, flipped: true }, guest]);
  });

  it("a channel found missing keeps its send, which is off", () => {
    const found = putIntoSetup(patched, drummer, fault(patched, "channel missing hat"));
    expect(found?.buses[0]?.sends).toEqual(
      patched.buses[0]?.sends.map((s) => (s.channel === "hat" ? { ...s, level: null } : s)),
    );
  });
});
