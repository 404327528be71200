import { expect, it } from "vitest";
import type { Channel, Listener, Setup } from "../../../src/core/model/setup";
import type { Note } from "../../../src/core/recommend/model";
import { withStep } from "../../../src/core/recommend/steps";
import { MONITOR_REST } from "../desk";
import { crossed, heardBy, ranked, withBus } from "./ranked";
import { channel, kit, listener, side, withChannel } from "./setups";

const FOUR = '["hat","tom","floor","ride"]';
const keeper = (id: string): Channel => channel(id, { lines: 2, keepSides: true });
const withKeys = (setup: Setup): Setup => withChannel(setup, keeper("keys"));
const withInes = (setup: Setup, over: Partial<Listener> = {}): Setup =>
  heardBy(setup, listener("ines", { facing: 180, ...over }));
const trimmed = (setup: Setup): Setup => withBus(setup, { sideTrim: [1, -1] });
const inInputs = (left: number, right: number): Setup =>
  kit({
    monitor: {
      inputCount: 2,
      inputs: [side("m1", "left", left), side("m1", "right", right)],
      maxInputDbu: 20,
      ...MONITOR_REST,
    },
  });
/** Some channels otherwise. */
const but = (setup: Setup, over: Record<string, Partial<Channel>>): Setup => ({
  ...setup,
  channels: setup.channels.map((s) => ({ ...s, ...over[s.id] })),
});
const notes = (setup: Setup, id: string): readonly Note[] => ranked(setup, id).notes;
const codes = (setup: Setup, id: string): string[] => notes(setup, id).map((n) => n.code);

it("who loses which channels that must keep L/R is noted, and nobody else; not what was lost before", () => {
  const setup = withInes(withChannel(withKeys(kit()), keeper("pads")));
  expect(notes(setup, "flip mara")).toEqual([
    { code: "sides lost", channels: ["keys", "pads"], listeners: ["mara"] },
  ]);
  const swapped = withStep(withInes(withKeys(kit())), { step: "swap", bus: "m1", inputs: null });
  expect(ranked(swapped, "leave").outcomes.map((o) => o.tally.sidesLost)).toEqual([0, 1, 1]);
  expect(notes(swapped, "leave")).toEqual([]);
});

it("unequal side trims are noted for what is done, and for nothing else", () => {
  const setup = trimmed(withKeys(kit()));
  expect(notes(setup, "swap")[1]).toMatchObject({ code: "side trims", by: "bus", apart: 2 });
  const [pans, ...more] = notes(setup, `bus ${FOUR}`);
  expect(more).toEqual([]);
  expect(pans).toMatchObject({ code: "side trims", by: "pans", apart: 2 });
  expect(pans?.code === "side trims" && pans.residual).toBeCloseTo(2, 9);
  // In a copy for one listener alone the trims stay as well.
  expect(codes(trimmed(withInes(withKeys(kit()))), `own mara ${FOUR}`)).toEqual(["side trims"]);
});

it("unequal input trims are noted of a swap, not of a flip", () => {
  expect(notes(inInputs(1, -1), "flip mara")).toEqual([]);
  const [note] = notes(heardBy(inInputs(1, -1), listener("tobi")), "swap");
  expect(note).toMatchObject({ code: "input trims", apart: 2 });
  expect(note?.code === "input trims" && note.residual).toBeCloseTo(2, 9);
});

it("inverted polarity and processing of one side are noted for what turns them round", () => {
  const setup = withBus(withKeys(kit()), { sideInverted: [false, true], unevenSides: true });
  expect(notes(setup, "swap").slice(1)).toEqual([
    { code: "polarity", by: "bus" },
    { code: "uneven sides", by: "bus" },
  ]);
  expect(notes(setup, `bus ${FOUR}`)).toEqual([
    { code: "polarity", by: "pans" },
    { code: "uneven sides", by: "pans" },
  ]);
});

it("the worst rounding to the desk's steps is noted with its channel, of channel pans too", () => {
  const coarse = (setup: Setup): Setup => ({ ...setup, desk: { ...setup.desk, panSteps: 4 } });
  const id = `swap; foh ${FOUR}`;
  expect(codes(coarse(crossed()), id)).toEqual(["foh", "rounding"]);
  const [, rounding] = notes(coarse(crossed()), id);
  // Pan 0.7 on steps of a quarter is 0.75; sine law, the softer side.
  const x = (p: number): number => (Math.PI / 4) * (1 + p);
  const exact = Math.abs(20 * Math.log10(Math.cos(x(0.75)) / Math.cos(x(0.7))));
  expect(rounding).toMatchObject({ code: "rounding", channel: "hat" });
  expect(rounding?.code === "rounding" && rounding.error).toBeCloseTo(exact, 9);
  const fits = but(coarse(crossed()), { hat: { pan: -0.75 } });
  expect(notes(fits, id)[1]).toMatchObject({ code: "rounding", channel: "floor" });
  expect(codes(crossed(), id)).toEqual(["foh"]);
});

it("stereo channels whose pan is mirrored are noted, in the bus and in copies together, each once", () => {
  // Mara has the hat wrong, and Ines, who faces her, the ride.
  const setup = but(withInes(withKeys(kit())), {
    hat: { lines: 2 },
    tom: { pan: 0 },
    floor: { pan: 0 },
    ride: { lines: 2, pan: 0.5 },
  });
  expect(notes(setup, 'bus ["hat"]; own ines ["ride"]').at(-1)).toEqual({
    code: "balance",
    channels: ["hat", "ride"],
  });
});

it("what FOH hears elsewhere is noted, and that what follows the channel pan is mirrored with it", () => {
  expect(
    notes(trimmed(crossed()), `swap; foh ${FOUR}`).map((n) => ("by" in n ? `${n.code} ${n.by}` : n.code)),
  ).toEqual(["foh", "side trims bus", "side trims pans"]);
});

it("a fold is noted, and a swapped copy beside it turns the trims for the one who gets it", () => {
  const setup = trimmed(withInes(kit(), { facing: -60 }));
  const fold = ["fold", "fold; own mara swapped"].find((id) => {
    try {
      return ranked(setup, id) !== undefined;
    } catch {
      return false;
    }
  });
  expect(codes(setup, fold ?? "")[0]).toBe("folded");
});
