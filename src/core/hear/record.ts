import { recordAsFound } from "../check/apply";
import { busOf } from "../mix/ear-gains";
import { HIGHEST_TRIM, LOWEST_TRIM } from "../model/limits";
import type { Bus, Listener, Setup } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { withBus } from "../model/update";
import { roundPan } from "../pan/notation";
import type { HeardSuspect } from "./heard";

/** Half of it on each side, in steps of the desk: which of the two is off no measurement tells. */
const withTrim = (setup: Setup, bus: Bus, more: Db): Setup | null => {
  const { trimStep } = setup.desk;
  const half = Math.round(more / 2 / trimStep) * trimStep;
  const sideTrim: Sides<Db> = [bus.sideTrim[0] - half, bus.sideTrim[1] + half];
  if (sideTrim.some((trim) => trim < LOWEST_TRIM || trim > HIGHEST_TRIM)) return null;
  return withBus(setup, bus.id, (its) => ({ ...its, sideTrim }));
};

/**
 * The setup as it was measured to be, as `recordAsFound` has it; a side trim and a wrong pan with the size that they
 * seem to have, in steps of the desk. FOH is not touched.
 * @returns null where a setup has no words for the fault, or the listener hears no bus
 */
export const recordHeard = (
  setup: Setup,
  listener: Listener,
  { fault, channel, pan, trim }: Pick<HeardSuspect, "fault" | "channel" | "pan" | "trim">,
): Setup | null => {
  if (fault !== "side-trim" && fault !== "wrong-pan")
    return recordAsFound(setup, listener, { fault, channel });
  const bus = busOf(setup, listener);
  if (!bus) return null;
  if (fault === "side-trim") return trim === null ? null : withTrim(setup, bus, trim);
  if (pan === null) return null;
  const seems = roundPan(pan, setup.desk).pan;
  return withBus(setup, bus.id, (its) => ({
    ...its,
    sends: its.sends.map((send) => (send.channel === channel ? { ...send, pan: seems } : send)),
  }));
};
