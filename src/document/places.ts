import type { Hand, Limb, Piece, PieceKind } from "../core/model/setup";

type Place = Pick<Piece, "x" | "y">;

/** Typical places by kind at a right-handed kit, metres from the throne; invented examples, common practice, no source. */
const PLACES: { readonly [kind in PieceKind]: readonly [Place, ...Place[]] } = {
  kick: [{ x: 0, y: 0.75 }],
  snare: [{ x: -0.1, y: 0.35 }],
  hat: [{ x: -0.5, y: 0.3 }],
  tom: [
    { x: -0.17, y: 0.65 },
    { x: 0.2, y: 0.65 },
  ],
  floor: [
    { x: 0.5, y: 0.25 },
    { x: 0.6, y: -0.1 },
  ],
  ride: [{ x: 0.55, y: 0.75 }],
  crash: [
    { x: -0.45, y: 0.75 },
    { x: 0.55, y: 0.85 },
    { x: 0.85, y: 0.55 },
  ],
  percussion: [
    { x: -0.75, y: 0.45 },
    { x: 0.8, y: 0.3 },
  ],
  overhead: [
    { x: 0.5, y: 0.5 },
    { x: -0.5, y: 0.5 },
  ],
  other: [{ x: 0.85, y: 0.55 }],
};

const LIMBS: { readonly [kind in PieceKind]?: readonly Limb[] } = {
  kick: ["kick-foot"],
  hat: ["hand", "hat-foot"],
  overhead: ["whole"],
};

/** What makes a piece of a kind sound: hands, unless it is stamped on or hears everything. */
export const limbsOf = (kind: PieceKind): readonly Limb[] => LIMBS[kind] ?? ["hand"];

/** What decides whether a piece goes to the other side with the hand. */
type Handed = Pick<Piece, "kind" | "x"> & Partial<Pick<Piece, "limbs">>;

/** A place of a microphone over the whole kit, not of a drum: no hand moves it. */
const isMicrophone = ({ kind, limbs }: Omit<Handed, "x">): boolean =>
  kind === "overhead" || limbs?.includes("whole") === true;

/**
 * Whether a piece stands on the other side than at a right-handed kit. At a left-handed one everything does but
 * the microphones over it; open-handed players keep the hat at the left and have the ride there too. Common practice.
 */
const isMirrored = (piece: Omit<Handed, "x">, hand: Hand): boolean =>
  !isMicrophone(piece) && (hand === "left" || (hand === "open" && piece.kind === "ride"));

/** A piece as it stands when the kit of one hand is set up for another; never at −0. */
export const forHand = <T extends Handed>(piece: T, from: Hand, to: Hand): T =>
  isMirrored(piece, from) === isMirrored(piece, to) ? piece : { ...piece, x: -piece.x || 0 };

/** A typical place for one more piece of a kind: the first that is free, else a little beside the last. */
export const placeFor = (kind: PieceKind, hand: Hand, pieces: readonly Place[]): Place => {
  const [first, ...more] = PLACES[kind].map((place) => {
    const { x } = forHand({ kind, x: place.x }, "right", hand);
    return { x, y: place.y };
  });
  const isFree = (place: Place): boolean => !pieces.some((p) => p.x === place.x && p.y === place.y);
  let place = [first as Place, ...more].find(isFree) ?? more.at(-1) ?? (first as Place);
  while (!isFree(place)) place = { x: place.x, y: place.y + 0.15 };
  return place;
};
