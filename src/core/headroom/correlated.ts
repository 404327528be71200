import { correlatedLevelOf } from "../level/arithmetic";
import { energySum, levelOf } from "../level/decibels";
import type { Recording } from "../model/setup";
import type { Db } from "../model/units";
import type { Contribution } from "./contributions";

/**
 * Average RMS of what arrives, by the correlations of a recording; polarity counts. A channel that is not in it counts as
 * uncorrelated with all others, and so do the two channels of one channel.
 * @returns null where fewer than two of the channels are in the recording: then it says nothing
 */
export const correlatedLevel = (
  arrivals: readonly Contribution[],
  recording: Recording | null,
): Db | null => {
  if (recording === null) return null;
  const rowOf = new Map(recording.channels.map((m, row) => [m.channel, row]));
  const measured: { readonly row: number; readonly polarity: number; readonly level: Db }[] = [];
  const others: Db[] = [];
  for (const { part, rms: gated, activity, polarity } of arrivals) {
    if (gated === null) continue;
    const rms = gated * Math.sqrt(activity);
    const row = rowOf.get(part.channel.id);
    if (row === undefined) others.push(levelOf(rms));
    else measured.push({ row, polarity, level: levelOf(rms) });
  }
  if (measured.length < 2) return null;
  const signed = measured.map((a) =>
    measured.map((b) => a.polarity * b.polarity * (recording.correlation[a.row]?.[b.row] ?? 0)),
  );
  others.push(
    correlatedLevelOf(
      measured.map((m) => m.level),
      signed,
    ),
  );
  return energySum(others);
};
