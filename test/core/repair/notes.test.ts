import { expect, it } from "vitest";
import type { Listener, Setup, Source } from "../../../src/core/setup";
import { crossed, heardBy, ranked } from "./ranked";
import { kit, listener, source, withSource } from "./setups";

const says = (setup: Setup, id: string): string[] =>
  ranked(setup, id).notes.map((n) => `${n.code}: ${n.says}`);
const trimmed = (setup: Setup): Setup => ({
  ...setup,
  sums: setup.sums.map((s) => ({ ...s, legTrim: [1, -1] })),
});
const withInes = (setup: Setup, over: Partial<Listener> = {}): Setup =>
  heardBy(setup, listener("ines", { name: "Ines", facing: 180, ...over }));
const keeper = (id: string): Source => source(id, { channels: 2, keepSides: true });
/** Some sources otherwise. */
const but = (setup: Setup, over: Record<string, Partial<Source>>): Setup => ({
  ...setup,
  sources: setup.sources.map((s) => ({ ...s, ...over[s.id] })),
});

const TRIMS_GO =
  "leg trims: The legs of Drums are trimmed 2.0 dB apart: the trims change ears with the legs.";
const TRIMS_STAY =
  "leg trims: The legs of Drums are trimmed 2.0 dB apart and stay so: what is panned over is up to 2.0 dB off an exact mirror.";

it("who loses the sides of several sources is named, and nobody else", () => {
  const setup = withInes(withSource(withSource(kit(), keeper("keys")), keeper("pads")));
  expect(says(setup, "mara:flip")).toEqual([
    "sides lost: KEYS and PADS must keep their sides and lose them for Mara.",
  ]);
});

it("what is panned over in a copy for one listener alone counts as panned over", () => {
  const setup = trimmed(withInes(withSource(kit(), keeper("keys"))));
  expect(says(setup, "mara:own panned")).toEqual([TRIMS_STAY]);
});

it("what follows the house is panned over with it", () => {
  expect(says(trimmed(crossed()), "swap, house")).toEqual([
    "house: The house hears HAT, TOM, FLOOR and RIDE on the other side.",
    TRIMS_GO,
    TRIMS_STAY,
  ]);
});

it("a fold leaves no sides, and a reversed copy beside it turns the legs for the one who gets it", () => {
  const setup = trimmed(withInes(kit(), { facing: -60 }));
  expect(says(setup, "fold, mara:own reversed")).toEqual([
    "folded: Everybody on Drums gets the same in both ears: no sides are left.",
    TRIMS_GO,
  ]);
});

it("sources panned over in the sum and in a copy are named together", () => {
  // Mara has the hat wrong, and Ines, who faces her, the ride.
  const setup = but(withInes(withSource(kit(), keeper("keys"))), {
    hat: { channels: 2 },
    tom: { pan: 0 },
    floor: { pan: 0 },
    ride: { channels: 2, pan: 0.5 },
  });
  expect(says(setup, "sum, ines:own panned")).toEqual([
    "two channels: HAT and RIDE: panning moves the balance, it does not exchange the two channels.",
  ]);
});

it("sources are named in the order of the sum, whether they follow the house or not", () => {
  const setup = but(crossed(), { hat: { channels: 2 }, ride: { channels: 2 } });
  const sums = setup.sums.map((s) => ({
    ...s,
    sends: s.sends.map((send) => (send.source === "hat" ? { ...send, pan: -0.7 } : send)),
  }));
  expect(says({ ...setup, sums }, "house").at(-1)).toBe(
    "two channels: HAT and RIDE: panning moves the balance, it does not exchange the two channels.",
  );
});
