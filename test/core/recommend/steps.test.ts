import { expect, it } from "vitest";
import type { Bus, MonitorInput, Setup } from "../../../src/core/model/setup";
import { roomForBus, withStep } from "../../../src/core/recommend/steps";
import { MONITOR_REST } from "../desk";
import { drumsOf, withDrums } from "./drums";
import { busOf, crossed, first, heardBy, ranked, withBus } from "./ranked";
import { BUS, channel, kit, listener, side, withChannel } from "./setups";

const FOUR = '["hat","tom","floor","ride"]';
const withKeys = (setup: Setup): Setup => withChannel(setup, channel("keys", { lines: 2, keepSides: true }));
const inInputs = (inputs: readonly (MonitorInput | null)[], inputCount = inputs.length): Setup =>
  kit({ monitor: { inputCount, inputs, maxInputDbu: 20, ...MONITOR_REST } });

it("a swap names the inputs that L and R have then, or that they have none", () => {
  expect(first(kit()).steps).toEqual([{ step: "swap", bus: "m1", inputs: [3, 2] }]);
  const unpatched = kit({ monitor: { inputCount: 8, inputs: [], maxInputDbu: 20, ...MONITOR_REST } });
  expect(first(unpatched).steps).toEqual([{ step: "swap", bus: "m1", inputs: null }]);
});

it("a pan says what it was, on the desk's steps, and whether it followed the channel pan", () => {
  const setup = withKeys(kit());
  const sends = busOf(setup).sends.map((s) => (s.channel === "hat" ? { ...s, pan: 0.4 } : s));
  const [hat, tom] = ranked(withBus(setup, { sends }), `bus ${FOUR}`).steps;
  expect(hat).toMatchObject({ step: "pan", bus: "m1", channel: "hat", from: 0.4, to: -0.4, followed: false });
  expect(tom).toMatchObject({ step: "pan", channel: "tom", from: 0.3, to: -0.3, followed: true });
  const coarse = { ...setup, desk: { ...setup.desk, panSteps: 4 } };
  expect(first(coarse).steps[0]).toMatchObject({ from: 0.7, to: -0.75 });
});

it("channel pans are set at the channels alone", () => {
  expect(ranked(crossed(), `swap; foh ${FOUR}`).steps.map((s) => s.step)).toEqual([
    "swap",
    "channel pan",
    "channel pan",
    "channel pan",
    "channel pan",
  ]);
});

it("a copy has an id and a name of its own, and only what needs it mirrored", () => {
  const setup = heardBy(withKeys(kit()), listener("ines", { facing: 180 }));
  const copyOf = (s: Setup): Bus => {
    const [step] = ranked(s, `own mara ${FOUR}`).steps;
    if (step?.step !== "own bus") throw new Error("no bus of one's own");
    return step.copy;
  };
  expect(copyOf(setup)).toMatchObject({ id: "m2", name: "Drums for Mara" });
  expect(copyOf(setup).sends.map((s) => s.pan)).toEqual([-0.7, -0.3, null, 0.7, 0.5, null]);
  expect(copyOf(withBus(setup, { name: "" })).name).toBe("Bus for Mara");
});

it("a copy stands right behind what it is a copy of, and all other inputs stay as they are", () => {
  const [a, b, c] = [side("m1", "left"), side("m1", "right"), side("m3", "left")];
  const before = inInputs([null, null, a, b, c], 5);
  const buses = ["m0", "m1", "m3"].map((id): Bus => ({ ...busOf(before), id }));
  const after = withStep(
    { ...before, buses },
    {
      step: "own bus",
      listener: "mara",
      of: "m1",
      copy: { ...BUS, id: "m4" },
      inputs: [0, 1],
      trims: [0, 0],
      off: [false, false],
      pans: [],
    },
  );
  expect(after.buses.map((s) => s.id)).toEqual(["m0", "m1", "m4", "m3"]);
  expect(after.monitor.inputs).toEqual([side("m4", "left"), side("m4", "right"), a, b, c]);
  expect(after.listeners.find((l) => l.id === "mara")?.bus).toBe("m4");
});

it("a swap is of the bus it names", () => {
  const setup = withDrums();
  const after = withStep(setup, { step: "swap", bus: drumsOf(setup).id, inputs: [1, 0] });
  expect(after.buses.map((s) => s.swapped)).toEqual([false, true]);
  expect(after.monitor.inputs.slice(0, 2)).toEqual([side("Drums", "right"), side("Drums", "left")]);
});

it("a bus finds room in two free inputs, neighbours first, and none in one", () => {
  const [a, b] = [side("m1", "left"), side("m1", "right")];
  expect(roomForBus(inInputs([null, a, null, null, b]))).toEqual([2, 3]);
  expect(roomForBus(inInputs([null, a, null, b]))).toEqual([0, 2]);
  expect(roomForBus(inInputs([null, a, b]))).toBeNull();
  expect(roomForBus(inInputs([a, b]))).toBeNull();
});
