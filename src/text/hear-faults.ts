import type { HeardSuspect } from "../core/hear/heard";
import { mixedChannelsOf } from "../core/mix/bus";
import { busOf } from "../core/mix/ear-gains";
import type { Listener, Setup } from "../core/model/setup";
import { formatPan } from "../core/pan/notation";
import { type CheckNames, describeFault, type FaultText } from "./check";
import { formatDb } from "./headroom";
import { channelName } from "./names";

const sideTrim = ({ bus, first, second }: CheckNames, trim: number): FaultText => ({
  name: `${bus} ${trim < 0 ? "L" : "R"} is about ${formatDb(Math.abs(trim))} dB too loud relative to ${trim < 0 ? "R" : "L"}`,
  steps: [
    `At the desk, compare the levels and trims of ${bus} L and R.`,
    first && second
      ? `At the monitor system, compare the trims of ${first} and ${second}.`
      : `At the monitor system, compare the trims of the inputs of ${bus}.`,
  ],
});

const wrongPan = (
  setup: Setup,
  listener: Listener,
  { bus }: CheckNames,
  { channel, pan }: Pick<HeardSuspect, "channel" | "pan">,
): FaultText => {
  const own = busOf(setup, listener);
  const part = own && mixedChannelsOf(setup, own).find((one) => one.channel.id === channel);
  const name = channelName(setup, channel ?? "");
  const planned = part ? formatPan(part.pan, setup.desk) : "where the plan has it";
  return {
    name: `${name} is panned about ${formatPan(pan ?? 0, setup.desk)} instead of ${planned}`,
    steps: [`At the desk, pan ${name} to ${planned} in ${bus}.`],
  };
};

/** A fault that was measured in words: what is so, and what to do in which order. */
export const describeHeardFault = (
  setup: Setup,
  listener: Listener,
  names: CheckNames,
  suspect: Pick<HeardSuspect, "fault" | "channel" | "pan" | "trim">,
): FaultText => {
  const { fault, channel, trim } = suspect;
  if (fault === "side-trim") return sideTrim(names, trim ?? 0);
  if (fault === "wrong-pan") return wrongPan(setup, listener, names, suspect);
  return describeFault(setup, names, { fault, channel });
};
