import { describe, expect, it } from "vitest";
import { recordAsFound } from "../../../src/core/check/apply";
import type { Fault } from "../../../src/core/check/faults";
import { type Hypothesis, hypothesesOf } from "../../../src/core/check/hypotheses";
import { drumsIn, pickupOf } from "../../../src/core/check/pickup";
import { pairOrder } from "../../../src/core/mix/pair-order";
import type { Bus, Listener, MonitorInput, Piece, Setup } from "../../../src/core/model/setup";
import { imagesOf } from "../../../src/core/stereo/image";
import { drummer, setupWith } from "./kits";

const patched = setupWith(8, "sine");
const lying = (inputs: readonly (MonitorInput | null)[], of: Setup = patched): Setup => ({
  ...of,
  monitor: { ...of.monitor, inputs },
});
const bare = lying(patched.monitor.inputs.map(() => null));
const hypotheses = (setup: Setup, listener: Listener = drummer): Hypothesis[] => {
  const pickup = pickupOf(setup);
  const bus = setup.buses[0] as Bus;
  return hypothesesOf(setup, listener, bus, pickup, drumsIn(setup, bus, pickup));
};
const record = (setup: Setup, fault: Fault, channel: string | null = null) =>
  recordAsFound(setup, drummer, { fault, channel });

/** Faults that a plan has words for; the last three only where the sides have monitor inputs. */
const SAYABLE: readonly Fault[] = [
  "planned",
  "swapped",
  "flipped",
  "folded",
  "inverted",
  "all-centred",
  "overheads-crossed",
  "wrong-side",
  "missing",
];
const BY_INPUTS: readonly Fault[] = ["left-only", "right-only", "silent"];

describe.each([
  ["a patched pair", patched],
  ["a pair not patched yet", bare],
])("what is recorded of %s", (_, setup) => {
  it.each(hypotheses(setup).map((h) => [h.id, h] as const))(
    "%s: the plan then gives what the ears got",
    (_id, found) => {
      const recorded = recordAsFound(setup, drummer, found);
      const byInputs = setup === patched && BY_INPUTS.includes(found.fault);
      expect(recorded !== null).toBe(SAYABLE.includes(found.fault) || byInputs);
      if (!recorded) return;
      const [planned] = hypotheses(recorded, recorded.listeners[0]);
      for (const piece of setup.kit.pieces.filter((p) => p.kind !== "overhead")) {
        const [now, was] = [planned, found].map((h) => (h as Hypothesis).image(piece as Piece, -6, null));
        expect(now?.inverted).toBe(was?.inverted);
        now?.sides.forEach((gain, ear) => {
          expect(gain).toBeCloseTo(was?.sides[ear] as number, 12);
        });
      }
      // FOH is not touched.
      expect(recorded.channels).toBe(setup.channels);
    },
  );
});

describe("what is recorded changes nothing else", () => {
  const side = (side: "left" | "right", bus = "drums", on = true): MonitorInput => ({
    feed: { kind: "bus", bus, side: side },
    port: null,
    on,
    trim: 0,
  });
  const on = (setup: Setup | null) => setup?.monitor.inputs.map((s) => s?.on ?? null);

  it("a swap is in the monitor inputs where the pair lies there, and each keeps its trim", () => {
    const inputs = patched.monitor.inputs.map((s, at) => (s && at === 2 ? { ...s, trim: -3 } : s));
    const found = record(lying(inputs), "swapped") as Setup;
    expect(pairOrder(found.monitor, found.buses[0] as Bus)).toBe("normal");
    expect(found.monitor.inputs.map((s) => s?.trim)).toEqual(inputs.map((s) => s?.trim));
    expect(found.buses).toEqual(patched.buses);
  });

  it("a lost side is off at its input, no other bus goes off with it, and found back again it is on", () => {
    const two = lying([side("left"), side("right"), side("left", "other"), side("right", "other")]);
    const both = { ...two, buses: [...two.buses, { ...(two.buses[0] as Bus), id: "other" }] };
    expect(on(record(both, "right-only"))).toEqual([false, true, true, true]);
    expect(on(record(both, "silent"))).toEqual([false, false, true, true]);
    const off = record(patched, "left-only") as Setup;
    expect(record(off, "switched-on")).toEqual(patched);
  });

  it("a side that has no input cannot be recorded as off", () => {
    const partly = lying(patched.monitor.inputs.map((s, at) => (at === 3 ? null : s)));
    expect([record(partly, "silent"), record(partly, "right-only")]).toEqual([null, null]);
    expect(record(partly, "left-only")?.monitor.inputs[2]?.on).toBe(false);
  });

  it("a mono bus found silent is off at its one input", () => {
    const buses = patched.buses.map((s) => ({ ...s, stereo: false }));
    const mono = lying([null, null, null, side("left")], { ...patched, buses });
    const found = record(mono, "silent") as Setup;
    expect(imagesOf(found)[0]?.rows.map((r) => r.sides)).toEqual(found.channels.map(() => [0, 0]));
  });

  it("a flip is recorded for the listener who was asked alone", () => {
    const guest: Listener = { ...drummer, id: "guest", kind: "performer" };
    const found = record({ ...patched, listeners: [drummer, guest] }, "flipped");
    expect(found?.listeners).toEqual([{ ...drummer, flipped: true }, guest]);
  });

  it("one channel keeps its send, turned or off; the others are as they were", () => {
    const sends = (fault: Fault) => record(patched, fault, "hat")?.buses[0]?.sends;
    const changed = (patch: object) =>
      patched.buses[0]?.sends.map((s) => (s.channel === "hat" ? { ...s, ...patch } : s));
    expect(sends("missing")).toEqual(changed({ level: null }));
    expect(sends("wrong-side")).toEqual(changed({ pan: -0.6 }));
  });

  it("nothing is recorded for a listener without a bus", () => {
    expect(recordAsFound(patched, { ...drummer, bus: null }, { fault: "swapped", channel: null })).toBeNull();
  });
});
