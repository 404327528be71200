import { gainOf } from "../decibels";
import { isStruck } from "../kinds";
import { partsOf } from "../mix";
import type { Id, Piece, Setup, Source, Sum } from "../setup";
import type { Gain, Metres } from "../units";

/** Something that can be hit in a check, and the sources through which it is heard. */
export interface Strike {
  readonly piece: Id;
  /** By microphones of its own, or only by those that hear the whole kit. */
  readonly through: "own" | "whole";
  readonly sources: readonly Id[];
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
const nearest = (piece: Piece, overKit: readonly (readonly [Source, Piece])[]): Source[] => {
  const least = Math.min(...overKit.map(([, place]) => distance(piece, place)));
  return overKit.filter(([, place]) => distance(piece, place) <= least + AS_NEAR).map(([source]) => source);
};

/**
 * What can be hit to check a sum: every struck piece with a microphone of its own that sounds in it.
 * Only if those are fewer than five, pieces without one are added through the whole-kit microphones: a model, since the
 * nearest hears a piece first and loudest, the others later and softer.
 * A two-channel source over the kit is left out of that: nobody has said which of its channels is on which side.
 */
export const strikesOf = (setup: Setup, sum: Sum): Strike[] => {
  const places = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  const heard = partsOf(setup, sum);
  const struck = setup.kit.pieces.filter(isStruck);
  const own = (piece: Piece): Strike => ({
    piece: piece.id,
    through: "own",
    sources: heard.filter((p) => p.source.piece === piece.id).map((p) => p.source.id),
    far: [],
  });
  const strikes = struck.map(own);
  if (strikes.filter((s) => s.sources.length > 0).length < ENOUGH) {
    const overKit = heard.flatMap(({ source }): [Source, Piece][] => {
      const place = source.piece === null ? undefined : places.get(source.piece);
      return place?.limbs.includes("whole") && source.channels === 1 ? [[source, place]] : [];
    });
    struck.forEach((piece, at) => {
      if (overKit.length === 0 || strikes[at]?.sources.length !== 0) return;
      const sources = nearest(piece, overKit).map((s) => s.id);
      const far = overKit.map(([{ id }]) => id).filter((id) => !sources.includes(id));
      strikes[at] = { piece: piece.id, through: "whole", sources, far };
    });
  }
  return strikes.filter((s) => s.sources.length > 0);
};

/** How a hit sounds through a source, in this sum or past it: 1 close by, less from afar, 0 not at all. */
export const soundThrough = (strike: Strike, source: Source): Gain => {
  if (strike.sources.includes(source.id) || source.piece === strike.piece) return 1;
  return strike.far.includes(source.id) ? FAR : 0;
};
