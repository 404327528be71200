import { levelOfPower, powerOf } from "../level/decibels";
import { meanOf, sumOf } from "../lib/mean";
import type { Piece } from "../model/setup";
import { levelDifference } from "../stereo/position";
import type { DrumResult, HeardDrum, HeardSuspect, HearingState, HearingVerdict } from "./heard";
import type { HearingGrounds, HitCheck } from "./hearing";
import type { MeasuredHit } from "./hit";
import { AGREEMENT_ERROR, DIFFERENCE_ERROR, FIRST_ERROR } from "./likelihood";
import { type HeardBelief, heardBelief, LEVEL_SPREAD } from "./posterior";
import { fisherOf } from "./prediction";
import { apart } from "./sketch";
import type { HeardState } from "./states";

/** Likely enough to be sure, 0…1: of a fault, and that nothing is wrong. Tuned by simulation. */
const SURE = 0.97;
const SURE_PLANNED = 0.95;
/** Sure enough that it is none of the states, 0…1. A design choice. */
const SURE_UNEXPLAINED = 0.9;
/** A fault was asked about when what was heard fits it so much worse than "planned", whatever its chance. A design choice. */
const ASKED_ABOUT = 0.05;
/** No fault is named by fewer hits of what it touches: a single one may have been of the wrong drum. A design choice. */
const LEAST_HITS = 2;
/** Hits a drum after which it is said how likely it is. A design choice. */
const MOST_A_DRUM = 1.6;
/** Two states count as told apart from this Bhattacharyya distance on, each drum hit once: what is mixed up then is rarer than one in twenty. */
const TOLD_APART = 2.5;
/** What no hit tells from as planned is named from this share of its chance on: less speaks against it. A design choice. */
const OPEN = 0.0015;
/** And so is, where the hits ran out, whatever else has this share of its chance. A design choice. */
const LEFT = 0.02;
/** What is not told from the likeliest is named from this share of its chance on; without being sure, from this chance on. */
const NAMED = 0.03;
const LIKELY = 0.1;
/** Where the hits ran out, nothing is called wrong while that has this share of the likeliest fault's chance: it is open. A design choice. */
const BENEFIT = 0.25;
/** A suspect is listed from this chance on. */
const LISTED = 0.01;
/** A free hit is given a drum from this chance on. A design choice. */
const ATTRIBUTED = 0.9;
/** A measured value is not as planned from so many standard deviations on. A design choice. */
const OFF = 3;

const ERRORS = {
  difference: DIFFERENCE_ERROR,
  first: FIRST_ERROR,
  agreement: AGREEMENT_ERROR,
  level: LEVEL_SPREAD,
};

/** A fault with all its sizes taken together, the likeliest first. */
interface Suspected extends HeardSuspect {
  /** Its likeliest size. */
  readonly state: HeardState;
  /** Its chance before the first hit. */
  readonly prior: number;
}

const suspectsOf = ({ states }: HearingGrounds, belief: HeardBelief): readonly Suspected[] => {
  const chance = (at: number): number => belief.states[at] as number;
  const places = new Map<string, number[]>();
  states.forEach(({ id }, at) => {
    places.set(id, [...(places.get(id) ?? []), at]);
  });
  return [...places.values()]
    .map((of): Suspected => {
      const best = of.reduce((a, b) => (chance(b) > chance(a) ? b : a));
      const state = states[best] as HeardState;
      const confidence = sumOf(of.map(chance));
      const middle = (size: (of: HeardState) => number | null): number | null =>
        size(state) === null
          ? null
          : sumOf(of.map((at) => (chance(at) * (size(states[at] as HeardState) ?? 0)) / confidence));
      return {
        id: state.id,
        fault: state.fault,
        channel: state.channel,
        confidence,
        pan: middle(({ pan }) => pan),
        trim: middle(({ trim }) => trim),
        state,
        prior: sumOf(of.map((at) => (states[at] as HeardState).prior)),
      };
    })
    .sort((a, b) => b.confidence - a.confidence);
};

const named = ({ state: _, prior: __, ...suspect }: Suspected): HeardSuspect => suspect;

/** How far two states are apart by one hit of a drum. */
const apartAt = (grounds: HearingGrounds, piece: Piece, a: HeardState, b: HeardState): number => {
  const [planned] = grounds.states as readonly [HeardState];
  const sketch = (state: HeardState) =>
    grounds.sketch(piece, grounds.touches(state, piece) ? state : planned);
  return apart(sketch(a), sketch(b), ERRORS);
};

/** How often a drum was hit, as far as it is known which drum a hit was of. */
type HitsOf = (piece: Piece) => number;

/** Of a few likely states the drum that tells most; each drum once before any is hit again. */
const nextDrum = (grounds: HearingGrounds, suspects: readonly Suspected[], hitsOf: HitsOf): Piece => {
  const likely = suspects.slice(0, 8);
  const fewest = Math.min(...grounds.pieces.map(hitsOf));
  const due = grounds.pieces.filter((piece) => hitsOf(piece) === fewest);
  let [best] = due as [Piece];
  let most = -1;
  for (const piece of due) {
    let tells = 0;
    likely.forEach((a, at) => {
      for (const b of likely.slice(at + 1))
        tells += a.confidence * b.confidence * -Math.expm1(-apartAt(grounds, piece, a.state, b.state));
    });
    if (tells <= most) continue;
    most = tells;
    best = piece;
  }
  return best;
};

const verdictOf = (
  grounds: HearingGrounds,
  belief: HeardBelief,
  suspects: readonly Suspected[],
  heard: readonly HeardDrum[],
  hitsOf: HitsOf,
): HearingVerdict => {
  const [first] = suspects as readonly [Suspected];
  const hits = heard.length;
  const over = hits >= Math.ceil(MOST_A_DRUM * grounds.pieces.length);
  const isTold = (other: Suspected): boolean =>
    sumOf(grounds.pieces.map((piece) => apartAt(grounds, piece, first.state, other.state))) >= TOLD_APART;
  const least = first.fault === "planned" ? OPEN : NAMED;
  const alike = suspects.filter(
    (one) => one === first || (one.confidence >= least * first.confidence && !isTold(one)),
  );
  const confidence = sumOf(alike.map((one) => one.confidence));
  const open = suspects.filter(
    (one) => one !== first && (alike.includes(one) || one.confidence >= LEFT * first.confidence),
  );
  const planned = { kind: "planned", confidence, open: (over ? open : alike.slice(1)).map(named) } as const;
  if (belief.unexplained >= SURE_UNEXPLAINED || (over && belief.unexplained > confidence))
    return { kind: "unexplained", confidence: belief.unexplained, nearest: named(first) };
  if (first.fault === "planned") {
    // What could be told must have been asked about.
    const isAskedAbout = suspects.every(
      (one) =>
        alike.includes(one) || one.confidence / one.prior <= (ASKED_ABOUT * first.confidence) / first.prior,
    );
    if ((confidence >= SURE_PLANNED && isAskedAbout) || over) return planned;
  } else if (confidence >= SURE && !alike.some(({ fault }) => fault === "planned")) {
    const touched = grounds.pieces.filter((piece) => grounds.touches(first.state, piece));
    if (sumOf(touched.map(hitsOf)) >= LEAST_HITS)
      return { kind: "found", suspects: alike.map(named), sure: true };
    const [again] = touched.sort((a, b) => hitsOf(b) - hitsOf(a));
    if (again && !over) return { kind: "asking", next: again.id };
  }
  if (!over) return { kind: "asking", next: nextDrum(grounds, suspects, hitsOf).id };
  const calm = suspects.find(({ fault }) => fault === "planned");
  if (calm && calm.confidence >= BENEFIT * first.confidence)
    return {
      kind: "planned",
      confidence: calm.confidence,
      open: suspects.filter((one) => one !== calm && one.confidence >= LEFT).map(named),
    };
  const likely = suspects.filter((one) => alike.includes(one) || one.confidence >= LIKELY);
  return { kind: "found", suspects: likely.map(named), sure: false };
};

const resultOf = (grounds: HearingGrounds, piece: Piece, hits: readonly MeasuredHit[]): DrumResult => {
  const [planned] = grounds.states as readonly [HeardState];
  const { difference, agreement, correlation } = grounds.sketch(piece, planned);
  const expected = { difference: difference.mean, spread: Math.sqrt(difference.variance), correlation };
  if (hits.length === 0) return { piece: piece.id, expected, measured: null, hits: 0, asPlanned: null };
  const power = (side: 0 | 1): number => meanOf(hits.map(({ levels }) => powerOf(levels[side])));
  const [left, right] = [power(0), power(1)];
  const known = hits.flatMap((hit) => hit.correlation ?? []);
  const measured = {
    difference: levelDifference([Math.sqrt(left), Math.sqrt(right)]),
    levels: [levelOfPower(left), levelOfPower(right)] as const,
    correlation: known.length > 0 ? meanOf(known) : null,
  };
  const off = (
    value: number,
    of: { readonly mean: number; readonly variance: number },
    error: number,
  ): boolean => Math.abs(value - of.mean) > OFF * Math.hypot(Math.sqrt(of.variance), error);
  const isOff =
    off(measured.difference, difference, DIFFERENCE_ERROR) ||
    (measured.correlation !== null && off(fisherOf(measured.correlation), agreement, AGREEMENT_ERROR));
  return { piece: piece.id, expected, measured, hits: hits.length, asPlanned: !isOff };
};

/** All that is to be said after what was heard. The hearing has no obstacle. */
export const stateOf = ({ grounds }: HitCheck, heard: readonly HeardDrum[]): HearingState => {
  if (!grounds) throw new RangeError("nothing can be heard here");
  const belief = heardBelief(grounds, heard);
  const suspects = suspectsOf(grounds, belief);
  const attributed = heard.map(({ piece }, at) => {
    if (piece !== null) return piece;
    const chances = belief.drums[at] as readonly number[];
    const best = chances.indexOf(Math.max(...chances));
    return (chances[best] as number) >= ATTRIBUTED ? (grounds.pieces[best]?.id ?? null) : null;
  });
  const hitsOf: HitsOf = ({ id }) => attributed.filter((one) => one === id).length;
  return {
    verdict: verdictOf(grounds, belief, suspects, heard, hitsOf),
    attributed,
    unknown: attributed.filter((id) => id === null).length,
    drums: grounds.pieces.map((piece) =>
      resultOf(
        grounds,
        piece,
        heard.flatMap(({ hit }, at) => (hit && attributed[at] === piece.id ? [hit] : [])),
      ),
    ),
    suspects: suspects.filter(({ confidence }) => confidence >= LISTED).map(named),
  };
};
