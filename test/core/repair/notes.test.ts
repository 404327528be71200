import { expect, it } from "vitest";
import type { Channel, Listener, Setup } from "../../../src/core/model/setup";
import { crossed, heardBy, ranked } from "./ranked";
import { channel, kit, listener, withChannel } from "./setups";

const says = (setup: Setup, id: string): string[] =>
  ranked(setup, id).notes.map((n) => `${n.code}: ${n.says}`);
const trimmed = (setup: Setup): Setup => ({
  ...setup,
  buses: setup.buses.map((s) => ({ ...s, sideTrim: [1, -1] })),
});
const withInes = (setup: Setup, over: Partial<Listener> = {}): Setup =>
  heardBy(setup, listener("ines", { name: "Ines", facing: 180, ...over }));
const keeper = (id: string): Channel => channel(id, { lines: 2, keepSides: true });
/** Some channels otherwise. */
const but = (setup: Setup, over: Record<string, Partial<Channel>>): Setup => ({
  ...setup,
  channels: setup.channels.map((s) => ({ ...s, ...over[s.id] })),
});

const TRIMS_GO =
  "side trims: The sides of Drums are trimmed 2.0 dB apart: the trims change ears with the sides.";
const TRIMS_STAY =
  "side trims: The sides of Drums are trimmed 2.0 dB apart and stay so: what is panned over is up to 2.0 dB off an exact mirror.";

it("who loses the sides of several channels is named, and nobody else", () => {
  const setup = withInes(withChannel(withChannel(kit(), keeper("keys")), keeper("pads")));
  expect(says(setup, "mara:flip")).toEqual([
    "sides lost: KEYS and PADS must keep their sides and lose them for Mara.",
  ]);
});

it("what is panned over in a copy for one listener alone counts as panned over", () => {
  const setup = trimmed(withInes(withChannel(kit(), keeper("keys"))));
  expect(says(setup, "mara:own panned")).toEqual([TRIMS_STAY]);
});

it("what follows FOH is panned over with it", () => {
  expect(says(trimmed(crossed()), "swap, house")).toEqual([
    "house: FOH hears HAT, TOM, FLOOR and RIDE on the other side.",
    TRIMS_GO,
    TRIMS_STAY,
  ]);
});

it("a fold leaves no sides, and a reversed copy beside it turns the sides for the one who gets it", () => {
  const setup = trimmed(withInes(kit(), { facing: -60 }));
  expect(says(setup, "fold, mara:own reversed")).toEqual([
    "folded: Everybody on Drums gets the same in both ears: no sides are left.",
    TRIMS_GO,
  ]);
});

it("channels panned over in the bus and in a copy are named together", () => {
  // Mara has the hat wrong, and Ines, who faces her, the ride.
  const setup = but(withInes(withChannel(kit(), keeper("keys"))), {
    hat: { lines: 2 },
    tom: { pan: 0 },
    floor: { pan: 0 },
    ride: { lines: 2, pan: 0.5 },
  });
  expect(says(setup, "sum, ines:own panned")).toEqual([
    "two channels: HAT and RIDE: panning moves the balance, it does not exchange the two channels.",
  ]);
});

it("channels are named in the order of the bus, whether they follow FOH or not", () => {
  const setup = but(crossed(), { hat: { lines: 2 }, ride: { lines: 2 } });
  const buses = setup.buses.map((s) => ({
    ...s,
    sends: s.sends.map((send) => (send.channel === "hat" ? { ...send, pan: -0.7 } : send)),
  }));
  expect(says({ ...setup, buses }, "house").at(-1)).toBe(
    "two channels: HAT and RIDE: panning moves the balance, it does not exchange the two channels.",
  );
});
