import { earPosition, type Place, placeAt } from "./position";
import type { Source } from "./setup";
import type { Db, Metres } from "./units";

/**
 * What is to be said of one source for one listener.
 * "flat": it stands at a side but is heard in the middle, or stands in the middle but is heard well to a side.
 */
export type Agreement = "right" | "wrong" | "flat" | "unplaceable";

/** A piece in the middle may be heard this far off before it is flagged, dB: two fifths of the way to one side, a design choice. */
export const OFF_MIDDLE_DB: Db = 6;

/** What one listener gets, counted. */
export interface Tally {
  readonly right: number;
  readonly wrong: number;
  readonly flat: number;
  readonly unplaceable: number;
  /** How many sources that must keep their sides have lost them. */
  readonly sidesLost: number;
  /** Mean over the pieces of side × heard, weighted by distance from the middle: −1 reversed … 0 flat … +1 right; null when nothing can be placed. */
  readonly score: number | null;
}

/** A tally under way. */
export interface Count {
  right: number;
  wrong: number;
  flat: number;
  unplaceable: number;
  sidesLost: number;
  /** Sum of offset × heard, metres. */
  heard: number;
  /** Sum of distances from the middle, metres. */
  weight: number;
}

/** A tally of nothing yet. */
export const startCount = (): Count => ({
  right: 0,
  wrong: 0,
  flat: 0,
  unplaceable: 0,
  sidesLost: 0,
  heard: 0,
  weight: 0,
});

/** Whether a source is on the right side. The one place where that is decided. */
const agree = (stands: Place | null, difference: Db | null): Agreement => {
  if (stands === null || difference === null) return "unplaceable";
  if (stands === "middle") return Math.abs(difference) <= OFF_MIDDLE_DB ? "right" : "flat";
  const heard = placeAt(difference);
  return heard === stands ? "right" : heard === "middle" ? "flat" : "wrong";
};

/** Where a source stands for a listener. */
export interface Standing {
  /** Metres to the listener's right of the throne; null without a place or side-on. */
  readonly offset: Metres | null;
  readonly stands: Place | null;
}

/**
 * Adds one source to a tally.
 * @param difference right over left as it is heard, dB; null when silent
 * @param sidesLost it must keep its sides and has lost them
 */
export const addTo = (
  count: Count,
  { offset, stands }: Standing,
  difference: Db | null,
  sidesLost: boolean,
): Agreement => {
  const agreement = agree(stands, difference);
  // Spelt out: this is the innermost line of every search.
  if (agreement === "right") count.right += 1;
  else if (agreement === "wrong") count.wrong += 1;
  else if (agreement === "flat") count.flat += 1;
  else count.unplaceable += 1;
  if (sidesLost) count.sidesLost += 1;
  if (offset !== null && difference !== null && stands !== "middle") {
    count.weight += Math.abs(offset);
    count.heard += offset * earPosition(difference);
  }
  return agreement;
};

/** The finished tally. */
export const finish = ({ right, wrong, flat, unplaceable, sidesLost, heard, weight }: Count): Tally => ({
  right,
  wrong,
  flat,
  unplaceable,
  sidesLost,
  score: weight === 0 ? null : heard / weight,
});

/** What happened to left and right on the way to an ear. */
export interface Way {
  /** Exchanged an odd number of times: at the patch, at the listener's own mixer. */
  readonly turned: boolean;
  /** Both legs carry the same. */
  readonly collapsed: boolean;
}

/**
 * Whether a source that must keep its sides has lost them: two channels by an exchange or a fold, which panning
 * can't mend; one channel when it is not heard on the side that the house gives it.
 * @param house right over left in the house, dB
 * @param difference right over left as it is heard, dB; null when silent
 */
export const losesSides = (
  source: Pick<Source, "keepSides" | "channels">,
  way: Way,
  house: Db,
  difference: Db | null,
): boolean => {
  if (!source.keepSides || difference === null) return false;
  if (source.channels === 2) return way.turned || way.collapsed;
  const meant = placeAt(house);
  return meant !== "middle" && placeAt(difference) !== meant;
};
