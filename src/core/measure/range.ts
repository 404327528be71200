import type { Db } from "../model/units";

/**
 * Levels that a measurement can have and a setup keeps, dBFS, both included. Upwards they end where a sample is taken
 * for none (+120) and what oversampling adds to it; downwards far below what any converter or 24-bit file holds.
 */
export const MEASURED_RANGE = { min: -400, max: 130 } as const;

/** A level as it is kept: below the range it is silence, −∞. */
export const keptLevel = (level: Db): Db => (level < MEASURED_RANGE.min ? Number.NEGATIVE_INFINITY : level);
