import { type Part, partsOf } from "../mix";
import type { Id, Piece, Setup, Source, Sum } from "../setup";
import type { Metres } from "../units";

/** Something that can be hit in a check, and the sources through which it is heard. */
export interface Strike {
  readonly piece: Id;
  readonly name: string;
  /** By microphones of its own, or only by those that hear the whole kit. */
  readonly through: "own" | "whole";
  readonly sources: readonly Id[];
}

/** With this many pieces that have a microphone of their own, no others are needed. A design choice. */
const ENOUGH = 5;
/** A second whole-kit microphone hardly farther than the nearest hears the piece as well. A design choice. */
const AS_NEAR: Metres = 0.15;

const isStruck = (piece: Piece): boolean => piece.limbs.length > 0 && !piece.limbs.includes("whole");

const distance = (a: Piece, b: Piece): Metres => Math.hypot(a.x - b.x, a.y - b.y);

const isHeard = (part: Part): boolean => part.legs[0] > 0 || part.legs[1] > 0;

/** The whole-kit microphones nearest to a piece. */
const nearest = (piece: Piece, overKit: readonly (readonly [Source, Piece])[]): Source[] => {
  const least = Math.min(...overKit.map(([, place]) => distance(piece, place)));
  return overKit.filter(([, place]) => distance(piece, place) <= least + AS_NEAR).map(([source]) => source);
};

/**
 * What can be hit to check a sum: every struck piece with a microphone of its own that sounds in it.
 * Only if those are fewer than five, pieces without one are added through the nearest whole-kit microphone(s):
 * a model, since every such microphone hears every piece, but the nearest hears it first and loudest.
 * A two-channel source over the kit is left out of that: nobody has said which of its channels is on which side.
 */
export const strikesOf = (setup: Setup, sum: Sum): Strike[] => {
  const places = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  const heard = partsOf(setup, sum).filter(isHeard);
  const struck = setup.kit.pieces.filter(isStruck);
  const own = (piece: Piece): Strike => ({
    piece: piece.id,
    name: piece.name,
    through: "own",
    sources: heard.filter((p) => p.source.piece === piece.id).map((p) => p.source.id),
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
      strikes[at] = { piece: piece.id, name: piece.name, through: "whole", sources };
    });
  }
  return strikes.filter((s) => s.sources.length > 0);
};

/** Whether a hit sounds through a source, in this sum or past it. */
export const soundsThrough = (strike: Strike, source: Source): boolean =>
  strike.sources.includes(source.id) || (strike.through === "own" && source.piece === strike.piece);
