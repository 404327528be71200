import { sourceCalled, sumCalled } from "./called";
import { houseLegs } from "./image";
import { partsOf } from "./mix";
import { earPosition, levelDifference, placeAt } from "./position";
import type { Id, Piece, Setup, Source, Sum } from "./setup";
import { MIDDLE_M } from "./stage";
import type { Db, Legs } from "./units";
import { listed } from "./words";

/** Overheads that do not go with the close microphones. */
export interface OverheadFlag {
  /** "crossed": every overhead is on the other side than the close microphones put that side of the kit; "mis-sided": some are. */
  readonly code: "crossed" | "mis-sided";
  /** Where: the house, or a sum by its id. */
  readonly where: "house" | Id;
  /** The overheads that disagree. */
  readonly sources: readonly Id[];
  /** What is so, as a sentence. */
  readonly says: string;
  /** What to do, as a sentence. */
  readonly remedy: string;
}

/** A source at a side of the kit with what its pan gives. */
interface AtSide {
  readonly source: Source;
  readonly piece: Piece;
  /** Right over left, dB. */
  readonly difference: Db;
}

const isOverhead = ({ piece }: AtSide): boolean => piece.limbs.includes("whole");

/** The sources of a feed that stand at a side of the kit; two channels are told apart by no pan and left out. */
const atSides = (setup: Setup, feed: readonly { source: Source; legs: Legs }[]): AtSide[] =>
  feed.flatMap(({ source, legs }) => {
    const piece = setup.kit.pieces.find((p) => p.id === source.piece);
    if (!piece || source.channels === 2 || Math.abs(piece.x) < MIDDLE_M) return [];
    return [{ source, piece, difference: levelDifference(legs) }];
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
  where: OverheadFlag["where"],
  at: string,
  feed: readonly AtSide[],
): OverheadFlag | null => {
  const overheads = feed.filter(isOverhead);
  const way = wayOf(feed.filter((f) => !isOverhead(f)));
  const odd = way === 0 ? [] : overheads.filter((o) => wayAt(o) === -way);
  if (odd.length === 0) return null;
  const sources = odd.map((o) => o.source.id);
  const names = listed(sources.map((id) => sourceCalled(setup, id)));
  const crossed = odd.length === overheads.length && odd.length > 1;
  const is = odd.length === 1 ? "is" : "are";
  return {
    code: crossed ? "crossed" : "mis-sided",
    where,
    sources,
    says: crossed
      ? `${names} are crossed ${at}: the close microphones have each side of the kit on the other side.`
      : `${names} ${is} on the wrong side ${at}: the close microphones have that side of the kit on the other.`,
    remedy: crossed
      ? "Exchange their pans, or their lines on stage if the pans are as meant; hit one cymbal to tell."
      : `Pan ${names} to the other side, or look whether the line is in the right input.`,
  };
};

const same = (a: OverheadFlag | null, b: OverheadFlag | null): boolean =>
  a?.code === b?.code && a?.sources.join() === b?.sources.join();

const inSum = (setup: Setup, sum: Sum): OverheadFlag | null =>
  sum.stereo && !sum.folded
    ? flagFor(setup, sum.id, `in ${sumCalled(sum)}`, atSides(setup, partsOf(setup, sum)))
    : null;

/** Overheads against the close microphones of the same side of the kit: in the house, and in each sum that differs from it. */
export const overheadFlags = (setup: Setup): OverheadFlag[] => {
  const sounding = setup.sources.filter((s) => !s.muted);
  const feed = sounding.map((source) => ({ source, legs: houseLegs(setup, source) }));
  const house = flagFor(setup, "house", "in the house", atSides(setup, feed));
  const sums = setup.sums.map((sum) => inSum(setup, sum)).filter((flag) => !same(flag, house));
  return [house, ...sums].filter((flag) => flag !== null);
};
