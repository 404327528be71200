import { mixedChannelsOf } from "../mix/bus";
import type { Bus, Channel, Id, Piece, Setup } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { busName, channelName } from "../names";
import { formatList } from "../words";
import { CENTRE_M } from "./geometry";
import { fohSides } from "./image";
import { earPosition, levelDifference, placeAt } from "./position";

/** Overheads that do not go with the close microphones. */
export interface OverheadIssue {
  /** "crossed": every overhead is on the other side than the close microphones put that side of the kit; "mis-sided": some are. */
  readonly code: "crossed" | "mis-sided";
  /** Where: FOH, or a bus by its id. */
  readonly where: "house" | Id;
  /** The overheads that disagree. */
  readonly channels: readonly Id[];
  /** What is so, as a sentence. */
  readonly says: string;
  /** What to do, as a sentence. */
  readonly remedy: string;
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
const atSides = (setup: Setup, feed: readonly { channel: Channel; sides: Sides }[]): AtSide[] =>
  feed.flatMap(({ channel, sides }) => {
    const piece = setup.kit.pieces.find((p) => p.id === channel.piece);
    if (!piece || channel.lines === 2 || Math.abs(piece.x) < CENTRE_M) return [];
    return [{ channel, piece, difference: levelDifference(sides) }];
  });

/**
 * On which side a feed has the drummer's right: +1 right, −1 left, by most of the close microphones, each by its
 * distance from the middle; 0 when they do not say.
 */
const wayOf = (close: readonly AtSide[]): number =>
  Math.sign(close.reduce((sum, { piece, difference }) => sum + piece.x * earPosition(difference), 0));

const wayAt = ({ piece, difference }: AtSide): number =>
  placeAt(difference) === "middle" ? 0 : Math.sign(piece.x * difference);

const flagFor = (
  setup: Setup,
  where: OverheadIssue["where"],
  at: string,
  feed: readonly AtSide[],
): OverheadIssue | null => {
  const overheads = feed.filter(isOverhead);
  const way = wayOf(feed.filter((f) => !isOverhead(f)));
  const odd = way === 0 ? [] : overheads.filter((o) => wayAt(o) === -way);
  if (odd.length === 0) return null;
  const channels = odd.map((o) => o.channel.id);
  const names = formatList(channels.map((id) => channelName(setup, id)));
  const crossed = odd.length === overheads.length && odd.length > 1;
  const is = odd.length === 1 ? "is" : "are";
  return {
    code: crossed ? "crossed" : "mis-sided",
    where,
    channels,
    says: crossed
      ? `${names} are crossed ${at}: the close microphones have each side of the kit on the other side.`
      : `${names} ${is} on the wrong side ${at}: the close microphones have that side of the kit on the other.`,
    remedy: crossed
      ? "Exchange their pans, or their lines on stage if the pans are as meant; hit one cymbal to tell."
      : `Pan ${names} to the other side, or look whether the line is in the right input.`,
  };
};

const same = (a: OverheadIssue | null, b: OverheadIssue | null): boolean =>
  a?.code === b?.code && a?.channels.join() === b?.channels.join();

const inBus = (setup: Setup, bus: Bus): OverheadIssue | null =>
  bus.stereo && !bus.folded
    ? flagFor(setup, bus.id, `in ${busName(bus)}`, atSides(setup, mixedChannelsOf(setup, bus)))
    : null;

/** Overheads against the close microphones of the same side of the kit: at FOH, and in each bus that differs from it. */
export const overheadIssues = (setup: Setup): OverheadIssue[] => {
  const sounding = setup.channels.filter((s) => !s.muted);
  const feed = sounding.map((channel) => ({ channel, sides: fohSides(setup, channel) }));
  const foh = flagFor(setup, "house", "at FOH", atSides(setup, feed));
  const buses = setup.buses.map((bus) => inBus(setup, bus)).filter((flag) => !same(flag, foh));
  return [foh, ...buses].filter((flag) => flag !== null);
};
