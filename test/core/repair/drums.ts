import type { Sum } from "../../../src/core/setup";
import { direct, leg, listener, setup, source, sum } from "../patch/setups";

const HAT = source("Hat", { kind: "drum", pan: 0.5 });
const RIDE = source("Ride", { kind: "drum", pan: -0.5 });
const players = [
  listener("mara", { name: "Mara, drums", kind: "drummer", sum: "Drums" }),
  listener("ines", { name: "Ines, keys", sum: "Drums" }),
  listener("theo", { name: "Theo, bass", sum: "Drums" }),
];
/** A pair of a hat and a ride that Mara, Ines and Theo hear; Mara matters most. */
export const withDrums = (more: Partial<Sum> = {}, inside: readonly string[] = ["Hat", "Ride"]) => {
  const s = setup(
    [HAT, RIDE],
    [sum("Other", ["Hat"]), sum("Drums", inside, more)],
    [leg("Drums", "left"), leg("Drums", "right"), direct("Hat")],
    16,
    players,
  );
  return { ...s, wishes: { ...s.wishes, first: "mara" } };
};
/** Its pair. */
export const drumsOf = (s: ReturnType<typeof withDrums>) => s.sums[1] as Sum;
