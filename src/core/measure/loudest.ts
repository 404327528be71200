import { levelOfPower } from "../level/decibels";
import { sumOf } from "../lib/mean";
import type { Id } from "../model/setup";
import type { Db } from "../model/units";
import type { TrackPlace } from "./bus-gains";
import type { LevelCourse, MeasuredFigures } from "./figures";

/** What one channel put into the loudest moment and into the highest sample of each side. */
export interface Maker {
  readonly channel: Id;
  /** Share of the energy of the louder side in its loudest step, 0…1. */
  readonly moment: number;
  /** Share of the highest sample of the left and right side; below 0 where it worked against it. They add up to 1. */
  readonly left: number;
  readonly right: number;
}

const shares = (parts: readonly number[]): readonly number[] => {
  const all = sumOf(parts);
  return all === 0 ? parts.map(() => 0) : parts.map((x) => x / all);
};

/** Which channels made the loudest moment and the highest samples, the one that put most into the moment first. */
export const makersOf = (figures: MeasuredFigures, places: readonly TrackPlace[]): Maker[] => {
  const { loudest, mixes } = figures;
  const [left, right] = [shares(mixes.left.parts), shares(mixes.right.parts)];
  const sum = (of: readonly number[], channel: Id): number =>
    places.reduce((all, p, t) => (p.channel === channel ? all + (of[t] ?? 0) : all), 0);
  return [...new Set(places.map((p) => p.channel))]
    .map((channel) => ({
      channel,
      moment: sum(loudest?.shares ?? [], channel),
      left: sum(left, channel),
      right: sum(right, channel),
    }))
    .sort((a, b) => b.moment - a.moment);
};

/**
 * One column of the course in so many points: of the steps that fall together the loudest, so that no peak is lost.
 * @returns dBFS; at most `points`, fewer where the recording has fewer steps
 */
export const courseLevels = ({ powers, columns }: LevelCourse, column: number, points: number): Db[] => {
  const steps = powers.length / columns;
  const count = Math.min(points, steps);
  const top = new Float64Array(count);
  for (let step = 0; step < steps; step += 1) {
    const at = Math.floor((step * count) / steps);
    top[at] = Math.max(top[at] as number, powers[step * columns + column] as number);
  }
  return Array.from(top, levelOfPower);
};
