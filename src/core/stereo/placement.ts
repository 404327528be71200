import type { Channel } from "../model/setup";
import type { Db, Metres } from "../model/units";
import { type EarPlace, earPosition, placeAt, ROUNDING_DB } from "./position";

/**
 * What is to be said of one channel for one listener.
 * "flat": it stands at a side but is heard in the middle, or stands in the middle but is heard well to a side.
 */
export type Placement = "right" | "wrong" | "centred" | "unplaced";

/** A piece in the middle may be heard this far off before it is flagged, dB: two fifths of the way to one side, a design choice. */
export const OFF_CENTRE_DB: Db = 6;

/** What one listener gets, counted. */
export interface Tally {
  readonly right: number;
  readonly wrong: number;
  readonly centred: number;
  readonly unplaced: number;
  /** How many channels that must keep their sides have lost them. */
  readonly sidesLost: number;
  /** Mean over the pieces of side × heard, weighted by distance from the middle: −1 reversed … 0 flat … +1 right; null when nothing can be placed. */
  readonly score: number | null;
}

/** A tally under way. */
export interface RunningTally {
  right: number;
  wrong: number;
  centred: number;
  unplaced: number;
  sidesLost: number;
  /** Sum of offset × heard, metres. */
  heard: number;
  /** Sum of distances from the middle, metres. */
  weight: number;
}

/** A tally of nothing yet. */
export const newTally = (): RunningTally => ({
  right: 0,
  wrong: 0,
  centred: 0,
  unplaced: 0,
  sidesLost: 0,
  heard: 0,
  weight: 0,
});

/** Whether a channel is on the right side. The one place where that is decided. */
export const agreementOf = (stands: EarPlace | null, difference: Db | null): Placement => {
  if (stands === null || difference === null) return "unplaced";
  if (stands === "middle") return Math.abs(difference) <= OFF_CENTRE_DB + ROUNDING_DB ? "right" : "centred";
  const heard = placeAt(difference);
  return heard === stands ? "right" : heard === "middle" ? "centred" : "wrong";
};

/** Where a channel stands for a listener. */
export interface Location {
  /** Metres to the listener's right of the throne; null without a place or side-on. */
  readonly offset: Metres | null;
  readonly stands: EarPlace | null;
}

/** How far to its side a channel is heard, metres: offset × heard; null where it has no side or is silent. */
export const sideHeard = ({ offset, stands }: Location, difference: Db | null): Metres | null =>
  offset === null || difference === null || stands === "middle" ? null : offset * earPosition(difference);

/**
 * Adds one channel to a tally.
 * @param difference right over left as it is heard, dB; null when silent
 * @param sidesLost it must keep its sides and has lost them
 */
export const addPlacement = (
  count: RunningTally,
  standing: Location,
  difference: Db | null,
  sidesLost: boolean,
): Placement => {
  const agreement = agreementOf(standing.stands, difference);
  count[agreement] += 1;
  if (sidesLost) count.sidesLost += 1;
  const heard = sideHeard(standing, difference);
  if (heard !== null) {
    count.weight += Math.abs(standing.offset ?? 0);
    count.heard += heard;
  }
  return agreement;
};

/** The finished tally. */
export const finishTally = ({
  right,
  wrong,
  centred: flat,
  unplaced: unplaceable,
  sidesLost,
  heard,
  weight,
}: RunningTally): Tally => ({
  right,
  wrong,
  centred: flat,
  unplaced: unplaceable,
  sidesLost,
  score: weight === 0 ? null : heard / weight,
});

/** What happened to left and right on the way to an ear. */
export interface EarPath {
  /** Exchanged an odd number of times: at the patch, at the listener's own mixer. */
  readonly turned: boolean;
  /** Both sides carry the same. */
  readonly collapsed: boolean;
}

/**
 * Whether a channel that must keep its sides has lost them: two channels by an exchange or a fold, which panning
 * can't mend; one channel when it is not heard on the side that FOH gives it.
 * @param house right over left at FOH, dB
 * @param difference right over left as it is heard, dB; null when silent
 */
export const losesSides = (
  channel: Pick<Channel, "keepSides" | "lines">,
  way: EarPath,
  foh: Db,
  difference: Db | null,
): boolean => {
  if (!channel.keepSides || difference === null) return false;
  if (channel.lines === 2) return way.turned || way.collapsed;
  const meant = placeAt(foh);
  return meant !== "middle" && placeAt(difference) !== meant;
};
