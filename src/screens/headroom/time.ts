import { formatNumber } from "../../core/lib/number";
import type { Seconds } from "../../core/model/units";

/** A time in the units people plan with, rounded once: seconds up to two minutes, then minutes, then hours with them. */
export const time = (seconds: Seconds): string => {
  const minutes = Math.round(seconds / 60);
  if (minutes >= 24 * 60) return "a whole day";
  if (minutes >= 60)
    return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
  if (Math.round(seconds) >= 120) return `${minutes} min`;
  return `${formatNumber(seconds, seconds < 9.95 ? 1 : 0)} s`;
};
