import type { Bus } from "../../../src/core/model/setup";
import { bus, channel, direct, listener, setup, side } from "../inputs/setups";

const HAT = channel("Hat", { kind: "drum", pan: 0.5 });
const RIDE = channel("Ride", { kind: "drum", pan: -0.5 });
const players = [
  listener("mara", { name: "Mara, drums", kind: "drummer", bus: "Drums" }),
  listener("ines", { name: "Ines, keys", bus: "Drums" }),
  listener("theo", { name: "Theo, bass", bus: "Drums" }),
];
/** A pair of a hat and a ride that Mara, Ines and Theo hear; Mara matters most. */
export const withDrums = (more: Partial<Bus> = {}, inside: readonly string[] = ["Hat", "Ride"]) => {
  const s = setup(
    [HAT, RIDE],
    [bus("Other", ["Hat"]), bus("Drums", inside, more)],
    [side("Drums", "left"), side("Drums", "right"), direct("Hat")],
    16,
    players,
  );
  return { ...s, wishes: { ...s.preferences, first: "mara" } };
};
/** Its pair. */
export const drumsOf = (s: ReturnType<typeof withDrums>) => s.buses[1] as Bus;
