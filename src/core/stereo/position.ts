import { levelOf } from "../level/decibels";
import { radians } from "../lib/angle";
import type { Db, Degrees, Side, Sides } from "../model/units";

/** Below this level difference an image is in the middle. Mills, JASA 32 (1960): about 1 dB at 1 kHz. */
export const CENTRE_DB: Db = 1;
/** From here on an image is fully at one side: the lower end of the 15–20 dB that a secondary text gives. */
export const SIDE_DB: Db = 15;
/** What the arithmetic of levels may be off by, dB: a difference nearer than this to a limit is at the limit. */
export const ROUNDING_DB: Db = 1e-9;
/** Half the angle between two loudspeakers, degrees. */
export const BASE: Degrees = 30;

const degrees = (angle: number): Degrees => (angle * 180) / Math.PI;

/** (r − l)/(r + l) of the absolute gains, −1…+1, exactly opposite for a swapped pair; null when both are silent. */
const lean = ([left, right]: Sides): number | null => {
  const sum = Math.abs(left) + Math.abs(right);
  return sum === 0 ? null : (Math.abs(right) - Math.abs(left)) / sum;
};

/** Where something is heard or stands. */
export type EarPlace = Side | "middle";

/**
 * Right over left, dB: +∞ with the left silent, −∞ with the right silent, NaN never: 0 when both are silent.
 * Exactly opposite for a swapped pair.
 */
export const levelDifference = ([left, right]: Sides): Db =>
  Math.abs(left) === Math.abs(right) ? 0 : levelOf(right) - levelOf(left);

/**
 * Lateral position −1…+1 of a pair of gains: (4/π)·atan((r − l)/(r + l)), which is (4/π)·atan2(r, l) − 1,
 * the pan that sin/cos would need. Exactly opposite for a swapped pair.
 * @returns null when both are silent: there is no image
 */
export const lateralPosition = (sides: Sides): number | null => {
  const share = lean(sides);
  return share === null ? null : (4 / Math.PI) * Math.atan(share);
};

/** Share of the way to one side with in-ear monitors, −1…+1: difference over 15 dB. A display model, from memory. */
export const earPosition = (difference: Db): number =>
  Math.abs(difference) > SIDE_DB - ROUNDING_DB ? Math.sign(difference) : difference / SIDE_DB;

/** Left, right or middle with in-ear monitors, by the level difference right over left. */
export const placeAt = (difference: Db): EarPlace =>
  Math.abs(difference) < CENTRE_DB - ROUNDING_DB ? "middle" : difference < 0 ? "left" : "right";

/** Left, right or middle with in-ear monitors; null when silent. */
export const heardPlace = (sides: Sides): EarPlace | null =>
  sides[0] === 0 && sides[1] === 0 ? null : placeAt(levelDifference(sides));

/**
 * Angle before two loudspeakers at ±30°, positive to the right, by the tangent law
 * tan φ / tan φ0 = (r − l)/(r + l). Pulkki, JAES 45(6) 1997, section 1.1.
 * @returns null when both are silent
 */
export const loudspeakerAngle = (sides: Sides): Degrees | null => {
  const share = lean(sides);
  return share === null ? null : degrees(Math.atan(Math.tan(radians(BASE)) * share));
};
