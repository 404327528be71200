import { meanOf } from "../lib/mean";
import type { Db, Pan } from "../model/units";
import type { PanSettings } from "./laws";
import {
  isHeard,
  levelAt,
  type Reading,
  type ReadingPoint,
  type SourceLevels,
  sourceLevels,
} from "./reading";

/** Share of what is left that a reading must be expected to rule out to be worth it. A design choice. */
const WORTH = 0.02;
/** Far below every meter's step: of points that tell as much, the easier one is taken. */
const ALIKE = 1e-9;

/** Points at which people can read, the easiest first. */
const POINTS: readonly ReadingPoint[] = [
  "before pan",
  { pan: 0, side: "left" },
  { pan: -1, side: "left" },
  ...[0.5, 0.75, 0.25].flatMap((share): ReadingPoint[] => [
    { pan: -share, side: "right" },
    { pan: -share, side: "left" },
  ]),
];

/** How far the pan is towards the side that is read; points that share it read the same by every law. */
const towards = (at: ReadingPoint): Pan | null =>
  at === "before pan" ? null : at.side === "left" ? -at.pan : at.pan;

/** Share of the levels that a meter may show if one law is the desk's which the other could show too, 0…1. */
const confused = (a: SourceLevels, b: SourceLevels): number => {
  const both = Math.min(a.high, b.high) - Math.max(a.low, b.low);
  return Math.max(0, Math.min(1, both / (a.high - a.low)));
};

/**
 * The reading by which the fewest of some laws are expected to be left; null where none rules out enough.
 * @param laws those left by the readings taken
 * @param taken each at a point where something is heard
 * @param onStep a pan on the desk's nearest step
 */
export const nextReading = (
  laws: readonly PanSettings[],
  taken: readonly Reading[],
  onStep: (pan: Pan) => Pan,
): ReadingPoint | null => {
  const [easiest] = POINTS;
  if (taken.length === 0 && easiest) return easiest;
  const half: Db = Math.max(...taken.map(({ resolution }) => resolution)) / 2;
  const sources = laws.map((settings) => ({ settings, ...sourceLevels(settings, taken) }));
  const remains = (at: ReadingPoint): number => {
    const shown = sources.map(({ settings, low, high }) => {
      const through = levelAt(settings, at);
      return { low: low + through - half, high: high + through + half };
    });
    const shares = shown.flatMap((a) => shown.map((b) => confused(a, b)));
    return meanOf(shares);
  };
  const points = POINTS.map((at) => (at === "before pan" ? at : { ...at, pan: onStep(at.pan) }));
  let best: ReadingPoint | null = null;
  let least = 1 - WORTH;
  for (const at of points) {
    // The same reading again shows the same.
    if (!isHeard(at) || taken.some((reading) => towards(reading.at) === towards(at))) continue;
    const share = remains(at);
    if (share > least - ALIKE) continue;
    least = share;
    best = at;
  }
  return best;
};
