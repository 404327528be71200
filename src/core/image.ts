import { channelGains, energyLegs } from "./channels";
import { type Part, partsOf } from "./mix";
import { isReversed } from "./patched";
import { earPosition, heardPlace, lateralPosition, levelDifference, type Place } from "./position";
import type { Id, Listener, Piece, Setup, Source, Sum } from "./setup";
import { isSideOn, offsetFor, standingPlace } from "./stage";
import type { Db, Legs, Metres } from "./units";

/**
 * What is to be said of one source for one listener.
 * "flat": it stands at a side but is heard in the middle, or stands in the middle but is heard well to a side.
 */
export type Agreement = "right" | "wrong" | "flat" | "unplaceable";

/** One source as one listener gets it. */
export interface ImageRow {
  readonly source: Id;
  /** Gains into the left and right ear (for the audience: left and right of the house). */
  readonly legs: Legs;
  /** Right over left, dB. */
  readonly difference: Db;
  /** Lateral position −1…+1; null when silent. */
  readonly position: number | null;
  readonly heard: Place | null;
  /** Metres to the listener's right of the throne; null without a place or side-on. */
  readonly offset: Metres | null;
  readonly stands: Place | null;
  readonly agreement: Agreement;
  /** It must keep its sides and they are the wrong way round. */
  readonly sidesLost: boolean;
}

/** The whole of what one listener gets. */
export interface Image {
  readonly listener: Id;
  readonly hears: "house" | "sum" | "nothing";
  readonly sideOn: boolean;
  readonly rows: readonly ImageRow[];
  readonly count: { readonly [agreement in Agreement]: number };
  /** How many sources that must keep their sides have lost them. */
  readonly sidesLost: number;
  /** Mean over the pieces of side × heard, weighted by distance from the middle: −1 reversed … 0 flat … +1 right; null when nothing can be placed. */
  readonly score: number | null;
}

/** A piece in the middle may be heard this far off before it is flagged, dB: a third of the way to one side, a design choice. */
const OFF_MIDDLE_DB: Db = 6;

/** One source with what a listener's feed gives it, before the listener's own flip. */
export interface Heard {
  readonly source: Source;
  readonly legs: Legs;
  /** The feed has its sides the wrong way round already. */
  readonly flipped: boolean;
}

const swap = <T>([left, right]: Legs<T>): Legs<T> => [right, left];

/** What the house gets: every source that is not muted, by its house pan. */
export const heardInHouse = (setup: Setup): Heard[] =>
  setup.sources
    .filter((s) => !s.muted)
    .map((source) => ({
      source,
      legs: energyLegs(channelGains(setup.console, source, source.pan)),
      flipped: false,
    }));

/** What a sum brings to the ears, by the order in which it is patched. */
export const heardInSum = (parts: readonly Part[], reversed: boolean): Heard[] =>
  parts.map((p) => ({ source: p.source, legs: reversed ? swap(p.legs) : p.legs, flipped: reversed }));

/** The listener's own mixer: flipped, or both legs into one. */
const throughMixer = (heard: Heard, listener: Pick<Listener, "flipped" | "mono">): Heard => {
  if (listener.mono) {
    const both = heard.legs[0] + heard.legs[1];
    return { ...heard, legs: [both, both] };
  }
  return listener.flipped ? { ...heard, legs: swap(heard.legs), flipped: !heard.flipped } : heard;
};

const agree = (stands: Place | null, heard: Place | null, difference: Db): Agreement => {
  if (stands === null || heard === null) return "unplaceable";
  if (stands === "middle") return Math.abs(difference) <= OFF_MIDDLE_DB ? "right" : "flat";
  return heard === stands ? "right" : heard === "middle" ? "flat" : "wrong";
};

const rowOf = (
  heard: Heard,
  piece: Piece | undefined,
  setup: Setup,
  listener: Listener,
  sideOn: boolean,
): ImageRow => {
  const offset = piece && !sideOn ? offsetFor(setup.kit, listener, piece) : null;
  const stands = offset === null ? null : standingPlace(offset);
  const difference = levelDifference(heard.legs);
  const place = heardPlace(heard.legs);
  return {
    source: heard.source.id,
    legs: heard.legs,
    difference,
    position: lateralPosition(heard.legs),
    heard: place,
    offset,
    stands,
    agreement: agree(stands, place, difference),
    sidesLost: heard.source.keepSides && heard.flipped,
  };
};

/** Weighted agreement of the rows that stand at a side. */
const scoreOf = (rows: readonly ImageRow[]): number | null => {
  let sum = 0;
  let weight = 0;
  for (const row of rows) {
    if (row.stands === null || row.stands === "middle" || row.heard === null || row.offset === null) continue;
    weight += Math.abs(row.offset);
    sum += row.offset * earPosition(row.difference);
  }
  return weight === 0 ? null : sum / weight;
};

/**
 * The image of a feed for a listener. The one place where "right side" is decided.
 * @param feed what reaches the listener's mixer
 */
export const imageOf = (
  setup: Setup,
  listener: Listener,
  hears: Image["hears"],
  feed: readonly Heard[],
  pieces: ReadonlyMap<Id, Piece>,
): Image => {
  const sideOn = isSideOn(setup.kit, listener);
  const rows = feed.map((h) => {
    const piece = h.source.piece === null ? undefined : pieces.get(h.source.piece);
    return rowOf(throughMixer(h, listener), piece, setup, listener, sideOn);
  });
  const count = { right: 0, wrong: 0, flat: 0, unplaceable: 0 };
  let sidesLost = 0;
  for (const row of rows) {
    count[row.agreement] += 1;
    if (row.sidesLost) sidesLost += 1;
  }
  return { listener: listener.id, hears, sideOn, rows, count, sidesLost, score: scoreOf(rows) };
};

/** The sum a listener hears, if there is one. */
export const sumOf = (setup: Setup, listener: Listener): Sum | undefined =>
  setup.sums.find((s) => s.id === listener.sum);

/** The image of every listener as things stand. */
export const imagesOf = (setup: Setup): Image[] => {
  const pieces = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  const feeds = new Map(setup.sums.map((s) => [s.id, heardInSum(partsOf(setup, s), isReversed(setup, s))]));
  const house = heardInHouse(setup);
  return setup.listeners.map((listener) => {
    if (listener.kind === "audience") return imageOf(setup, listener, "house", house, pieces);
    const feed = listener.sum === null ? undefined : feeds.get(listener.sum);
    return imageOf(setup, listener, feed ? "sum" : "nothing", feed ?? [], pieces);
  });
};
