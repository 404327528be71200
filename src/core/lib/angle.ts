import type { Degrees } from "../model/units";

/** An angle in radians, as the arithmetic wants it. */
export const radians = (angle: Degrees): number => (angle * Math.PI) / 180;
