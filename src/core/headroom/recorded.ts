import { convertRms } from "../level/analog";
import { gainOf, levelOf } from "../level/decibels";
import { mixedChannelsOf } from "../mix/bus";
import type { Bus, Setup } from "../model/setup";
import type { Db, Outlet } from "../model/units";
import { contributionsAt } from "./contributions";
import { correlatedLevel } from "./correlated";

/**
 * Average RMS of a bus as the setup's recording has it, whatever levels are entered: the measured channels through the
 * gains of now with their correlations. Levels in the desk's rms convention, dBFS.
 * @returns null where something that sounds is not in the recording, and where it is a stereo channel, of which the
 * recording keeps the mean of both sides only
 */
export const recordedAverage = (setup: Setup, bus: Bus): { readonly [outlet in Outlet]: Db } | null => {
  const { recording, desk } = setup;
  const parts = mixedChannelsOf(setup, bus);
  if (recording === null || parts.length === 0) return null;
  const levels = new Map(recording.channels.map((m) => [m.channel, m.rms]));
  const strengths = parts.flatMap(({ channel }) => {
    const rms = levels.get(channel.id);
    if (rms === undefined || channel.lines === 2) return [];
    return [{ rms: gainOf(convertRms(rms, "sample", desk.rms)), peak: null, activity: 1 }];
  });
  if (strengths.length < parts.length) return null;
  const at = (outlet: Outlet): Db => {
    const arrivals = contributionsAt(parts, strengths, outlet);
    // One channel alone has nothing to correlate with.
    return correlatedLevel(arrivals, recording) ?? levelOf(arrivals[0]?.rms ?? 0);
  };
  return bus.stereo
    ? { left: at("left"), right: at("right"), mono: at("mono") }
    : { left: at("left"), right: at("left"), mono: at("left") };
};
