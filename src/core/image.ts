import { type Agreement, addTo, finish, losesSides, type Standing, startCount } from "./agreement";
import { channelGains, energyLegs } from "./channels";
import { type Heard, heardInHouse, heardInSum, sumOf, throughMixer } from "./ears";
import { heardPlace, lateralPosition, levelDifference, type Place } from "./position";
import type { Id, Listener, Setup, Source, Sum } from "./setup";
import { isSideOn } from "./stage";
import { standingFor } from "./standing";
import type { Db, Legs } from "./units";

/** One source as one listener gets it. */
export interface ImageRow extends Standing {
  readonly source: Id;
  /** Gains into the left and right ear (for the audience: left and right of the house). */
  readonly legs: Legs;
  /** Right over left, dB. */
  readonly difference: Db;
  /** Lateral position −1…+1; null when silent. */
  readonly position: number | null;
  readonly heard: Place | null;
  readonly agreement: Agreement;
  /** It must keep its sides and has lost them. */
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

/** Left and right of a source in the house. */
export const houseLegs = (setup: Pick<Setup, "console">, source: Source): Legs =>
  energyLegs(channelGains(setup.console, source, source.pan));

/**
 * The image of a feed for a listener.
 * @param feed what reaches the listener's mixer
 */
export const imageOf = (
  setup: Setup,
  listener: Listener,
  hears: Image["hears"],
  feed: readonly Heard[],
): Image => {
  const standing = standingFor(setup, listener);
  const count = startCount();
  const rows = feed.map((fed): ImageRow => {
    const heard = throughMixer(fed, listener);
    const { source } = heard;
    const legs = energyLegs(heard.channels);
    const stands = standing(source);
    const difference = levelDifference(legs);
    const place = heardPlace(legs);
    const told = place === null ? null : difference;
    const house = source.keepSides ? levelDifference(houseLegs(setup, source)) : 0;
    const sidesLost = losesSides(source, heard, house, told);
    return {
      source: source.id,
      legs,
      difference,
      position: lateralPosition(legs),
      heard: place,
      ...stands,
      agreement: addTo(count, stands, told, sidesLost),
      sidesLost,
    };
  });
  const { right, wrong, flat, unplaceable, sidesLost, score } = finish(count);
  return {
    listener: listener.id,
    hears,
    sideOn: isSideOn(setup.kit, listener),
    rows,
    count: { right, wrong, flat, unplaceable },
    sidesLost,
    score,
  };
};

/** The image of every listener, or of some, as things stand. */
export const imagesOf = (setup: Setup, listeners: readonly Listener[] = setup.listeners): Image[] => {
  const feeds = new Map<Sum | null, readonly Heard[]>();
  const feedOf = (sum: Sum | null): readonly Heard[] => {
    const feed = feeds.get(sum) ?? (sum ? heardInSum(setup, sum) : heardInHouse(setup));
    feeds.set(sum, feed);
    return feed;
  };
  return listeners.map((listener) => {
    if (listener.kind === "audience") return imageOf(setup, listener, "house", feedOf(null));
    const sum = sumOf(setup, listener);
    return imageOf(setup, listener, sum ? "sum" : "nothing", sum ? feedOf(sum) : []);
  });
};
