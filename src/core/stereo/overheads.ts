import { type Lookup, lookup } from "../lib/memo";
import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { hearsFoh, isStruck } from "../model/kinds";
import type { Bus, Channel, Id, Listener, Piece, Setup } from "../model/setup";
import type { Db, Metres, Sides } from "../model/units";
import { isMiddle, isSideOn, offsetFor } from "./geometry";
import { fohSides } from "./image";
import { earPosition, levelDifference, placeAt } from "./position";

/** Overheads and close microphones that do not go together. */
export interface OverheadIssue {
  /** "crossed": every overhead is on the other side than the close microphones put that side of the kit; "mis-sided": some are. */
  readonly code: "crossed" | "mis-sided";
  /** Where: FOH, or a bus by its id. */
  readonly where: "foh" | Id;
  /** The overheads that disagree. */
  readonly overheads: readonly Id[];
  /** The group that disagrees with where the kit stands for the audience; null where that does not tell. */
  readonly change: "overheads" | "close microphones" | null;
  /** The channels of that group that are on the wrong side for the audience; empty where it is not known. */
  readonly channels: readonly Id[];
  /** The piece with a close microphone that is farthest from the middle: a hit on it tells. Null where nobody strikes one. */
  readonly hit: Id | null;
}

/** A channel at a side of the kit with what its pan gives. */
interface AtSide {
  readonly channel: Channel;
  readonly piece: Piece;
  /** Right over left, dB. */
  readonly difference: Db;
}

const isOverhead = ({ piece }: AtSide): boolean => piece.limbs.includes("whole");

/** The channels of a feed that stand at a side of the kit; two channels are told apart by no pan and left out. */
const atSides = (setup: Setup, feed: readonly { channel: Channel; sides: Sides }[]): AtSide[] => {
  const pieces = new Map<Id | null, Piece>(setup.kit.pieces.map((piece) => [piece.id, piece]));
  return feed.flatMap(({ channel, sides }) => {
    const piece = pieces.get(channel.piece);
    if (!piece || channel.lines === 2 || isMiddle(piece.x)) return [];
    return [{ channel, piece, difference: levelDifference(sides) }];
  });
};

/** Everybody who hears FOH faces the stage, so that any of them has the same left and right. */
const audienceOf = ({ listeners }: Setup): Listener | undefined => listeners.find((l) => hearsFoh(l));

const heardAt = (group: readonly AtSide[], offset: (piece: Piece) => Metres): number =>
  group.reduce((sum, { piece, difference }) => sum + offset(piece) * earPosition(difference), 0);

/**
 * On which side a feed has the drummer's right: +1 right, −1 left, by most of the close microphones, each by its
 * distance from the middle; 0 when they do not say.
 */
const wayOf = (close: readonly AtSide[]): number => Math.sign(heardAt(close, (piece) => piece.x));

const wayAt = ({ piece, difference }: AtSide): number =>
  placeAt(difference) === "middle" ? 0 : Math.sign(piece.x * difference);

/** Which of two groups that disagree is on the wrong side for the audience, and which channels of it. */
const toChange = (
  { kit }: Setup,
  audience: Listener | undefined,
  overheads: readonly AtSide[],
  close: readonly AtSide[],
): Pick<OverheadIssue, "change" | "channels"> => {
  const unknown = { change: null, channels: [] } as const;
  if (!audience || isSideOn(kit, audience)) return unknown;
  const offset = (piece: Piece): Metres => offsetFor(kit, audience, piece);
  const [overheadsWrong, closeWrong] = [heardAt(overheads, offset) < 0, heardAt(close, offset) < 0];
  if (overheadsWrong === closeWrong) return unknown;
  const wrong = (overheadsWrong ? overheads : close).filter((one) => heardAt([one], offset) < 0);
  return {
    change: overheadsWrong ? "overheads" : "close microphones",
    channels: wrong.filter((w) => placeAt(w.difference) !== "middle").map((w) => w.channel.id),
  };
};

const farthest = (close: readonly AtSide[]): Id | null =>
  close
    .filter(({ piece }) => isStruck(piece))
    .reduce<Piece | null>(
      (far, { piece }) => (far && Math.abs(far.x) >= Math.abs(piece.x) ? far : piece),
      null,
    )?.id ?? null;

/** @param audience by whom it is decided which group is to change; nobody where a feed is not panned for the audience */
const flagFor = (
  setup: Setup,
  where: OverheadIssue["where"],
  feed: readonly AtSide[],
  audience: Listener | undefined,
): OverheadIssue | null => {
  const overheads = feed.filter(isOverhead);
  const close = feed.filter((f) => !isOverhead(f));
  const way = wayOf(close);
  const odd = way === 0 ? [] : overheads.filter((o) => wayAt(o) === -way);
  if (odd.length === 0) return null;
  return {
    code: odd.length === overheads.length && odd.length > 1 ? "crossed" : "mis-sided",
    where,
    overheads: odd.map((o) => o.channel.id),
    ...toChange(setup, audience, odd, close),
    hit: farthest(close),
  };
};

const same = (a: OverheadIssue | null, b: OverheadIssue | null): boolean =>
  a?.code === b?.code && a?.overheads.join() === b?.overheads.join() && a?.change === b?.change;

/** @param parts what sounds in the bus */
const inBus = (setup: Setup, bus: Bus, parts: readonly MixedChannel[]): OverheadIssue | null => {
  if (!bus.stereo || bus.folded) return null;
  const feed = atSides(setup, parts);
  const own = new Set(parts.filter((p) => p.send.pan !== null).map((p) => p.channel.id));
  // Close microphones with pans of their own may be panned for somebody else than the audience.
  const isForAudience = feed.every((f) => isOverhead(f) || !own.has(f.channel.id));
  return flagFor(setup, bus.id, feed, isForAudience ? audienceOf(setup) : undefined);
};

/**
 * Overheads against close microphones in each bus, by its id; null where they go together.
 * @param mixed what sounds in each bus
 * @param before of the setup before a change: of buses in which nothing changed it is kept
 */
export const busOverheads = (
  setup: Setup,
  mixed: Lookup<readonly MixedChannel[]>,
  before?: Lookup<OverheadIssue | null>,
): Lookup<OverheadIssue | null> => {
  const { kit, desk, channels } = setup;
  return lookup(
    setup.buses,
    (bus) => [bus, desk, channels, kit, audienceOf(setup)],
    (bus) => inBus(setup, bus, mixed.get(bus.id) ?? []),
    before,
  );
};

/**
 * Overheads against the close microphones of the same side of the kit: at FOH, and in each bus that differs from it.
 * @param inBuses what is found in each bus, by its id, where that is known already
 */
export const overheadIssues = (setup: Setup, inBuses?: Lookup<OverheadIssue | null>): OverheadIssue[] => {
  const sounding = setup.channels.filter((s) => !s.muted);
  const feed = sounding.map((channel) => ({ channel, sides: fohSides(setup, channel) }));
  const foh = flagFor(setup, "foh", atSides(setup, feed), audienceOf(setup));
  const found = setup.buses.map((bus) =>
    inBuses ? inBuses.get(bus.id) : inBus(setup, bus, mixedChannelsOf(setup, bus)),
  );
  return [foh, ...found.filter((flag) => !same(flag ?? null, foh))].filter((flag) => flag != null);
};
