import { energySum, levelOf } from "../decibels";
import { correlatedSumOf } from "../levels";
import type { Recording } from "../setup";
import type { Db } from "../units";
import type { Arrival } from "./arrivals";

/**
 * Level of what arrives, by the correlations of a recording; polarity counts. A source that is not in it counts as
 * uncorrelated with all others, and so do the two channels of one source.
 * @returns null where fewer than two of the sources are in the recording: then it says nothing
 */
export const correlatedLevel = (arrivals: readonly Arrival[], recording: Recording | null): Db | null => {
  if (recording === null) return null;
  const rowOf = new Map(recording.sources.map((m, row) => [m.source, row]));
  const measured: { readonly row: number; readonly polarity: number; readonly level: Db }[] = [];
  const others: Db[] = [];
  for (const { part, rms, polarity } of arrivals) {
    if (rms === null) continue;
    const row = rowOf.get(part.source.id);
    if (row === undefined) others.push(levelOf(rms));
    else measured.push({ row, polarity, level: levelOf(rms) });
  }
  if (measured.length < 2) return null;
  const signed = measured.map((a) =>
    measured.map((b) => a.polarity * b.polarity * (recording.correlation[a.row]?.[b.row] ?? 0)),
  );
  others.push(
    correlatedSumOf(
      measured.map((m) => m.level),
      signed,
    ),
  );
  return energySum(others);
};
