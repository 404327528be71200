import { isStruck } from "../model/kinds";
import type { Id, Limb, Piece } from "../model/setup";
import type { Gain } from "../model/units";
import type { Contribution } from "./contributions";

/** A set of limbs as bits: hands 1, the kick's foot 2, the hat's foot 4. */
type LimbSet = number;

const BIT: { readonly [limb in Exclude<Limb, "whole">]: LimbSet } = {
  hand: 1,
  "kick-foot": 2,
  "hat-foot": 4,
};
const ALL: LimbSet = 7;

const setOf = (limbs: readonly Limb[]): LimbSet =>
  limbs.reduce((set, limb) => (limb === "whole" ? set : set | BIT[limb]), 0);

/** How many pieces the limbs of a set can sound at once: two hands, one foot, the other foot. */
const capacity = (set: LimbSet): number =>
  2 * Number((set & BIT.hand) > 0) +
  Number((set & BIT["kick-foot"]) > 0) +
  Number((set & BIT["hat-foot"]) > 0);

/** For each set of limbs, how many more pieces may be sounded by limbs of that set alone. */
const freeLimbs = (): number[] => Array.from({ length: ALL + 1 }, (_, set) => capacity(set));

/** Takes a limb of the set for one more piece if there is one (Hall's condition on every set that holds it). */
const take = (free: number[], limbs: LimbSet): boolean => {
  const holds = (set: LimbSet): boolean => (set & limbs) === limbs;
  for (let set = limbs; set <= ALL; set += 1) if (holds(set) && free[set] === 0) return false;
  for (let set = limbs; set <= ALL; set += 1) if (holds(set)) free[set] = (free[set] as number) - 1;
  return true;
};

/**
 * Largest sum of peaks that can be played: each player strikes with two hands, the kick's foot and the hat's foot
 * (a player whose pieces name no pedal has just the hands); all channels of one piece sound together, once;
 * what hears the whole kit or stands at no piece always counts.
 *
 * Exact: the sets of pieces that some assignment of limbs can sound are the independent sets of a transversal matroid
 * (Edmonds and Fulkerson 1965), and for those taking the loudest that still fits, one by one, gives the largest sum
 * (Rado 1957, Edmonds 1971; both from memory). The exchange: if a best set lacks the loudest piece that fits,
 * putting it in drives out at most one piece, which is no louder.
 */
export const playablePeak = (arrivals: readonly Contribution[], pieces: ReadonlyMap<Id, Piece>): Gain => {
  let sum = 0;
  const struck = new Map<Piece, Gain>();
  for (const { part, peak } of arrivals) {
    if (peak === null) continue;
    const piece = part.channel.piece === null ? undefined : pieces.get(part.channel.piece);
    if (isStruck(piece)) struck.set(piece, (struck.get(piece) ?? 0) + peak);
    else sum += peak;
  }
  const players = new Map<string, number[]>();
  for (const [piece, peak] of [...struck].sort(([, a], [, b]) => b - a)) {
    const free = players.get(piece.player) ?? freeLimbs();
    players.set(piece.player, free);
    if (take(free, setOf(piece.limbs))) sum += peak;
  }
  return sum;
};
