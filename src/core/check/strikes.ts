import { gainOf } from "../level/decibels";
import { mixedChannelsOf } from "../mix/bus";
import { isStruck } from "../model/kinds";
import type { Bus, Channel, Id, Piece, Setup } from "../model/setup";
import type { Gain, Metres } from "../model/units";

/** Something that can be hit in a check, and the channels through which it is heard. */
export interface Strike {
  readonly piece: Id;
  /** By microphones of its own, or only by those that hear the whole kit. */
  readonly through: "own" | "whole";
  readonly channels: readonly Id[];
  /** Whole-kit microphones on the far side, which hear it as well, but later and softer. */
  readonly far: readonly Id[];
}

/** With this many pieces that have a microphone of their own, no others are needed. A design choice. */
const ENOUGH = 5;
/** A second whole-kit microphone hardly farther than the nearest hears the piece as well. A design choice: a snare or kick. */
const AS_NEAR: Metres = 0.2;
/** How a farther one counts: softer, and later, which the ear takes for softer still. A design choice. */
const FAR: Gain = gainOf(-10);

const distance = (a: Piece, b: Piece): Metres => Math.hypot(a.x - b.x, a.y - b.y);

/** The whole-kit microphones nearest to a piece. */
const nearest = (piece: Piece, overKit: readonly (readonly [Channel, Piece])[]): Channel[] => {
  const least = Math.min(...overKit.map(([, place]) => distance(piece, place)));
  return overKit.filter(([, place]) => distance(piece, place) <= least + AS_NEAR).map(([channel]) => channel);
};

/**
 * What can be hit to check a bus: every struck piece with a microphone of its own that sounds in it.
 * Only if those are fewer than five, pieces without one are added through the whole-kit microphones: a model, since the
 * nearest hears a piece first and loudest, the others later and softer.
 * A stereo channel over the kit is left out of that: nobody has said which of its channels is on which side.
 */
export const strikesOf = (setup: Setup, bus: Bus): Strike[] => {
  const places = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  const heard = mixedChannelsOf(setup, bus);
  const struck = setup.kit.pieces.filter(isStruck);
  const own = (piece: Piece): Strike => ({
    piece: piece.id,
    through: "own",
    channels: heard.filter((p) => p.channel.piece === piece.id).map((p) => p.channel.id),
    far: [],
  });
  const strikes = struck.map(own);
  if (strikes.filter((s) => s.channels.length > 0).length < ENOUGH) {
    const overKit = heard.flatMap(({ channel }): [Channel, Piece][] => {
      const place = channel.piece === null ? undefined : places.get(channel.piece);
      return place?.limbs.includes("whole") && channel.lines === 1 ? [[channel, place]] : [];
    });
    struck.forEach((piece, at) => {
      if (overKit.length === 0 || strikes[at]?.channels.length !== 0) return;
      const channels = nearest(piece, overKit).map((s) => s.id);
      const far = overKit.map(([{ id }]) => id).filter((id) => !channels.includes(id));
      strikes[at] = { piece: piece.id, through: "whole", channels, far };
    });
  }
  return strikes.filter((s) => s.channels.length > 0);
};

/** How a hit sounds through a channel, in this bus or past it: 1 close by, less from afar, 0 not at all. */
export const soundThrough = (strike: Strike, channel: Channel): Gain => {
  if (strike.channels.includes(channel.id) || channel.piece === strike.piece) return 1;
  return strike.far.includes(channel.id) ? FAR : 0;
};
