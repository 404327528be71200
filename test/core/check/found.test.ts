import { describe, expect, it } from "vitest";
import { checkOf } from "../../../src/core/check/check";
import type { Fault } from "../../../src/core/check/faults";
import { putIntoSetup } from "../../../src/core/check/found";
import { evaluate } from "../../../src/core/evaluate";
import { patchedOrder } from "../../../src/core/patched";
import type { Listener, Setup, Slot, Sum } from "../../../src/core/setup";
import { drummer, setupWith } from "./kits";

const patched = setupWith(8, "sine");
const bare: Setup = {
  ...patched,
  monitor: { ...patched.monitor, slots: patched.monitor.slots.map(() => null) },
};
const faultsIn = (setup: Setup): Fault[] => checkOf(setup, drummer).sets.flatMap((s) => s.faults);

/** In words of a setup only where the legs have slots. */
const BY_SLOTS = ["left leg only", "right leg only", "silent"];
const EXPRESSED = [
  "planned",
  "reversed",
  "flipped",
  "folded",
  "inverted",
  "all at centre",
  "source wrong",
  "source missing",
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
      const bySlots = setup === patched && BY_SLOTS.includes(fault.kind);
      expect(found !== null).toBe(EXPRESSED.includes(fault.kind) || bySlots);
      if (!found) return;
      const rows = evaluate(found).images[0]?.rows ?? [];
      strikes.forEach((strike, at) => {
        const legs = rows.find((r) => r.source === strike.sources[0])?.legs ?? [0, 0];
        legs.forEach((gain, ear) => {
          expect(gain).toBeCloseTo(fault.images[at]?.legs[ear] as number, 12);
        });
      });
    },
  );

  it("leaves the house alone", () => {
    for (const fault of faults)
      expect(putIntoSetup(setup, drummer, fault)?.sources ?? setup.sources).toBe(setup.sources);
  });
});

it("a reversal found is put into the slots where the pair lies in them", () => {
  const reversed = faultsIn(patched).find((f) => f.kind === "reversed") as Fault;
  const found = putIntoSetup(patched, drummer, reversed) as Setup;
  expect(patchedOrder(patched.monitor, patched.sums[0] as Sum)).toBe("reversed");
  expect(patchedOrder(found.monitor, found.sums[0] as Sum)).toBe("straight");
});

it("a leg found missing is off in its slot, and found back again is on", () => {
  const of = (setup: Setup, id: string) => faultsIn(setup).find((f) => f.id === id) as Fault;
  const on = (setup: Setup) => setup.monitor.slots.slice(2, 4).map((s) => s?.on);
  for (const [id, are] of [
    ["left leg only", [false, true]],
    ["right leg only", [true, false]],
    ["silent", [false, false]],
  ] as const) {
    const found = putIntoSetup(patched, drummer, of(patched, id)) as Setup;
    expect(on(found)).toEqual(are);
    expect(of(found, "planned").images).toEqual(of(patched, id).images);
    expect(putIntoSetup(found, drummer, of(found, "switched on"))).toEqual(patched);
  }
});

it("a mono sum found silent is off in its one slot, in both ears", () => {
  const sums = patched.sums.map((s) => ({ ...s, stereo: false }));
  const slots = patched.monitor.slots.map((s, at) => (at === 3 ? s : null));
  const mono: Setup = { ...patched, sums, monitor: { ...patched.monitor, slots } };
  const silent = faultsIn(mono).find((f) => f.kind === "silent") as Fault;
  const found = putIntoSetup(mono, drummer, silent) as Setup;
  expect(found.monitor.slots[3]?.on).toBe(false);
  expect(evaluate(found).images[0]?.rows.map((r) => r.legs)).toEqual(found.sources.map(() => [0, 0]));
});

it("with one leg in no slot, a leg that has none cannot be put in as off", () => {
  const slots = patched.monitor.slots.map((s, at) => (at === 3 ? null : s));
  const partly: Setup = { ...patched, monitor: { ...patched.monitor, slots } };
  const put = (id: string) =>
    putIntoSetup(partly, drummer, faultsIn(partly).find((f) => f.id === id) as Fault);
  expect([put("silent"), put("right leg only")]).toEqual([null, null]);
  expect(put("left leg only")?.monitor.slots[2]?.on).toBe(false);
});

it("a reversal found leaves each slot its trim and switch", () => {
  const slots = patched.monitor.slots.map((s, at) => (s && at === 2 ? { ...s, trim: -3 } : s));
  const trimmed: Setup = { ...patched, monitor: { ...patched.monitor, slots } };
  const reversed = faultsIn(trimmed).find((f) => f.kind === "reversed") as Fault;
  const found = putIntoSetup(trimmed, drummer, reversed) as Setup;
  expect(found.monitor.slots.map((s) => s?.trim)).toEqual(slots.map((s) => s?.trim));
  expect(faultsIn(found).find((f) => f.kind === "planned")?.images).toEqual(reversed.images);
});

it("polarity found is put in, which levels alone do not show", () => {
  const inverted = faultsIn(patched).find((f) => f.kind === "inverted") as Fault;
  const found = putIntoSetup(patched, drummer, inverted) as Setup;
  expect(faultsIn(found).find((f) => f.kind === "planned")?.images).toEqual(inverted.images);
});

it("nothing is put in for a listener without a sum", () => {
  const [fault] = faultsIn(patched);
  expect(putIntoSetup(patched, { ...drummer, sum: null }, fault as Fault)).toBeNull();
});

describe("what is put in changes nothing else", () => {
  const fault = (setup: Setup, id: string) => faultsIn(setup).find((f) => f.id === id) as Fault;
  const leg = (side: "left" | "right", sum = "drums", on = true): Slot => ({
    feed: { kind: "leg", sum, leg: side },
    on,
    trim: 0,
  });
  const lying = (slots: readonly (Slot | null)[]): Setup => ({
    ...patched,
    monitor: { ...patched.monitor, slots },
  });
  const on = (setup: Setup | null) => setup?.monitor.slots.map((s) => s?.on ?? null);

  it("a pair that lies in order is reversed in its slots, and the plan stays", () => {
    const straight = lying([leg("left"), leg("right")]);
    const found = putIntoSetup(straight, drummer, fault(straight, "reversed"));
    expect(found?.monitor.slots).toEqual([leg("right"), leg("left")]);
    expect(found?.sums).toEqual(straight.sums);
  });

  it("a leg in the very first slot can be off, and no other sum goes off with it", () => {
    const two = lying([leg("left"), leg("right"), leg("left", "other"), leg("right", "other")]);
    const sums = [...two.sums, { ...(two.sums[0] as Sum), id: "other" }];
    const both = { ...two, sums };
    expect(on(putIntoSetup(both, drummer, fault(both, "right leg only")))).toEqual([false, true, true, true]);
    expect(on(putIntoSetup(both, drummer, fault(both, "silent")))).toEqual([false, false, true, true]);
  });

  it("only the leg that was off is switched on, whether or not the other one has a slot", () => {
    const spare = lying([leg("left"), leg("right", "drums", false), null, leg("left", "drums", false)]);
    expect(on(putIntoSetup(spare, drummer, fault(spare, "switched on")))).toEqual([true, true, null, false]);
    const alone = lying([leg("right", "drums", false)]);
    expect(on(putIntoSetup(alone, drummer, fault(alone, "switched on")))).toEqual([true]);
  });

  it("a flip is put in for the listener who was asked alone", () => {
    const guest: Listener = { ...drummer, id: "guest", kind: "performer" };
    const two = { ...patched, listeners: [drummer, guest] };
    const found = putIntoSetup(two, drummer, fault(two, "flipped"));
    expect(found?.listeners).toEqual([{ ...drummer, flipped: true }, guest]);
  });

  it("a source found missing keeps its send, which is off", () => {
    const found = putIntoSetup(patched, drummer, fault(patched, "source missing hat"));
    expect(found?.sums[0]?.sends).toEqual(
      patched.sums[0]?.sends.map((s) => (s.source === "hat" ? { ...s, level: null } : s)),
    );
  });
});
