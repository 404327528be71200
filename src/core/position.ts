import type { Db, Degrees, Gain, Legs, Side } from "./units";

/** Below this level difference an image is in the middle. Mills, JASA 32 (1960): about 1 dB at 1 kHz. */
export const MIDDLE_DB: Db = 1;
/** From here on an image begins to be fully at one side; a secondary text gives 15–20 dB. */
export const SIDE_DB: Legs<Db> = [15, 20];
/** Half the angle between two loudspeakers, degrees. */
const BASE: Degrees = 30;

/** Where something is heard or stands. */
export type Place = Side | "middle";

/** Right over left, dB: +∞ with the left silent, −∞ with the right silent, NaN never: 0 when both are silent. */
export const levelDifference = ([left, right]: Legs): Db =>
  left === right ? 0 : 20 * Math.log10(Math.abs(right / left));

/**
 * Lateral position −1…+1 of a pair of gains: (4/π)·atan2(r, l) − 1, the pan that sin/cos would need.
 * @returns null when both are silent: there is no image
 */
export const lateralPosition = ([left, right]: Legs): number | null =>
  left === 0 && right === 0 ? null : (4 / Math.PI) * Math.atan2(Math.abs(right), Math.abs(left)) - 1;

/** Share of the way to one side in ear-worn monitors, −1…+1: difference over 15 dB. A display model, from memory. */
export const earPosition = (difference: Db): number => Math.max(-1, Math.min(1, difference / SIDE_DB[0]));

/** Left, right or middle in ear-worn monitors; null when silent. */
export const heardPlace = (legs: Legs): Place | null => {
  if (legs[0] === 0 && legs[1] === 0) return null;
  const difference = levelDifference(legs);
  return Math.abs(difference) < MIDDLE_DB ? "middle" : difference < 0 ? "left" : "right";
};

/**
 * Angle before two loudspeakers at ±30°, positive to the right, by the tangent law
 * tan φ / tan φ0 = (r − l)/(r + l). Pulkki, JAES 45(6) 1997, section 1.1.
 * @returns null when both are silent
 */
export const loudspeakerAngle = ([left, right]: Legs): Degrees | null => {
  const sum: Gain = Math.abs(left) + Math.abs(right);
  if (sum === 0) return null;
  const base = (BASE * Math.PI) / 180;
  return (Math.atan((Math.tan(base) * (Math.abs(right) - Math.abs(left))) / sum) * 180) / Math.PI;
};
