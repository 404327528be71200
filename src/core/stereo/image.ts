import { type Lookup, lookup, remembered } from "../lib/memo";
import type { MixedChannel } from "../mix/bus";
import { busOf, type HeardChannel, heardInBus, heardInFoh, throughMixer } from "../mix/ear-gains";
import { hearsFoh } from "../model/kinds";
import type { Bus, Channel, Id, Listener, Setup } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { channelGains, energySides } from "../pan/stereo";
import { isSideOn } from "./geometry";
import { locationsFor } from "./location";
import { addPlacement, finishTally, type Location, losesSides, newTally, type Placement } from "./placement";
import { type EarPlace, heardPlace, lateralPosition, levelDifference } from "./position";

/** One channel as one listener gets it. */
export interface ImageRow extends Location {
  readonly channel: Id;
  /** Gains into the left and right ear (for the audience: left and right of FOH). */
  readonly sides: Sides;
  /** Right over left, dB. */
  readonly difference: Db;
  /** Lateral position −1…+1; null when silent. */
  readonly position: number | null;
  readonly heard: EarPlace | null;
  readonly placement: Placement;
  /** It must keep its sides and has lost them. */
  readonly sidesLost: boolean;
}

/** The whole of what one listener gets. */
export interface Image {
  readonly listener: Id;
  readonly hears: "foh" | "bus" | "nothing";
  readonly sideOn: boolean;
  readonly rows: readonly ImageRow[];
  readonly count: { readonly [agreement in Placement]: number };
  /** How many channels that must keep their sides have lost them. */
  readonly sidesLost: number;
  /** Mean over the pieces of side × heard, weighted by distance from the middle: −1 reversed … 0 flat … +1 right; null when nothing can be placed. */
  readonly score: number | null;
}

/** Left and right of a channel at FOH. */
export const fohSides = (setup: Pick<Setup, "desk">, channel: Channel): Sides =>
  energySides(channelGains(setup.desk, channel, channel.pan));

/**
 * The image of a feed for a listener.
 * @param feed what reaches the listener's mixer
 */
export const imageOf = (
  setup: Setup,
  listener: Listener,
  hears: Image["hears"],
  feed: readonly HeardChannel[],
): Image => {
  const standing = locationsFor(setup, listener);
  const count = newTally();
  const rows = feed.map((fed): ImageRow => {
    const heard = throughMixer(fed, listener);
    const { channel } = heard;
    const sides = energySides(heard.gains);
    const stands = standing(channel);
    const difference = levelDifference(sides);
    const place = heardPlace(sides);
    const told = place === null ? null : difference;
    const foh = channel.keepSides ? levelDifference(fohSides(setup, channel)) : 0;
    const sidesLost = losesSides(channel, heard, foh, told);
    return {
      channel: channel.id,
      sides,
      difference,
      position: lateralPosition(sides),
      heard: place,
      ...stands,
      placement: addPlacement(count, stands, told, sidesLost),
      sidesLost,
    };
  });
  const { right, wrong, centred, unplaced, sidesLost, score } = finishTally(count);
  return {
    listener: listener.id,
    hears,
    sideOn: isSideOn(setup.kit, listener),
    rows,
    count: { right, wrong, centred, unplaced },
    sidesLost,
    score,
  };
};

/** What each bus (null: FOH) brings to the ears, worked out once. */
type FeedOf = (bus: Bus | null) => readonly HeardChannel[];

const feedsOf = (setup: Setup, mixed?: Lookup<readonly MixedChannel[]>): FeedOf =>
  remembered((bus) => (bus ? heardInBus(setup, bus, mixed?.get(bus.id)) : heardInFoh(setup)));

const imageWith = (setup: Setup, listener: Listener, feedOf: FeedOf): Image => {
  if (hearsFoh(listener)) return imageOf(setup, listener, "foh", feedOf(null));
  const bus = busOf(setup, listener);
  return imageOf(setup, listener, bus ? "bus" : "nothing", bus ? feedOf(bus) : []);
};

/** The image of every listener, or of some, as things stand. */
export const imagesOf = (setup: Setup, listeners: readonly Listener[] = setup.listeners): Image[] => {
  const feedOf = feedsOf(setup);
  return listeners.map((listener) => imageWith(setup, listener, feedOf));
};

/**
 * The image of each listener, by the listener's id.
 * @param mixed what sounds in each bus
 * @param before of the setup before a change: images of what did not change are kept
 */
export const listenerImages = (
  setup: Setup,
  mixed: Lookup<readonly MixedChannel[]>,
  before?: Lookup<Image>,
): Lookup<Image> => {
  const { kit, desk, channels, monitor } = setup;
  const feedOf = feedsOf(setup, mixed);
  return lookup(
    setup.listeners,
    (listener) => [listener, busOf(setup, listener), kit, desk, channels, monitor],
    (listener) => imageWith(setup, listener, feedOf),
    before,
  );
};
