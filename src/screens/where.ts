import { formatNumber } from "../core/lib/number";
import type { Metres } from "../core/model/units";

const metres = (value: Metres): string => formatNumber(Math.abs(value), 2);
const isNone = (value: Metres): boolean => Number(metres(value)) === 0;

/** How far across something is: "0.50 m left", "in the middle". */
export const across = (x: Metres, right = "right", left = "left"): string =>
  isNone(x) ? "in the middle" : `${metres(x)} m ${x < 0 ? left : right}`;

/** How far in front something is: "0.30 m in front of the throne", "level with the throne". */
export const inFront = (y: Metres): string =>
  isNone(y) ? "level with the throne" : `${metres(y)} m ${y < 0 ? "behind" : "in front of"} the throne`;
