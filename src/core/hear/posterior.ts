import { meanOf, sumOf } from "../lib/mean";
import { remembered } from "../lib/memo";
import type { Piece } from "../model/setup";
import type { Db } from "../model/units";
import type { HeardDrum } from "./heard";
import type { HearingGrounds } from "./hearing";
import type { MeasuredHit } from "./hit";
import { type Evidence, evidenceOf, levelDensity, offsetBy, weigh } from "./likelihood";
import type { HeardState } from "./states";
import { WORLDS } from "./worlds";

/** Chance of something that is none of the states, before the first hit. A design choice. */
const UNEXPLAINED_PRIOR = 0.01;
/** Share of the drums that go their own way when two things are wrong at once. A design choice. */
const ODD = 0.15;
/** Density of what a drum brings that goes its own way: any difference, agreement and level alike. */
const OWN_WAY = 1 / 40 / 40 / 4.6 / 30;
/** And of the same once more: it is always alike. A design choice: about what a state has that is right. */
const AGAIN = 0.05;

/** How differently loud drums are from what was entered, how differently people hit, and one drum nobody has entered, dB. Design choices. */
const DRUM_SPREAD: Db = 4.5;
const HIT_SPREAD: Db = 2.5;
const UNKNOWN_SPREAD: Db = 8;
/** Spread of the level of one hit, dB. */
export const LEVEL_SPREAD: Db = Math.hypot(DRUM_SPREAD, HIT_SPREAD);

/** Levels of the phone's input against the plan that are tried, dB: a knob that nobody has entered. */
const GAINS: readonly Db[] = Array.from({ length: 25 }, (_, at) => 3.5 * (at - 12));
const GAIN_SPREAD: Db = 15;
/** How much louder the right side of it may be than the left: knobs and meters that are off by less than a side trim. */
const OFFSETS: readonly { readonly offset: Db; readonly prior: number }[] = [
  { offset: -0.8, prior: 0.2 },
  { offset: 0, prior: 0.6 },
  { offset: 0.8, prior: 0.2 },
];

/** Where nothing was heard: the level that would have been, dBFS, and the chance that nobody hit. Design choices. */
const HEARD_FROM: Db = -60;
const NOT_HIT = 0.03;

/** What is believed after some hits. */
export interface HeardBelief {
  /** Chance of each state, in their order. */
  readonly states: readonly number[];
  /** Chance of something that is none of them. With `states` it sums to 1. */
  readonly unexplained: number;
  /** Of each entry, how likely each drum was hit, in their order. */
  readonly drums: readonly (readonly number[])[];
}

/** Slope of the logistic curve that runs closest to a normal distribution of deviation 1; textbook. */
const LOGISTIC = 1.702;

/** What was heard of one drum. */
export interface Told {
  readonly hits: readonly MeasuredHit[];
  readonly isNothing: boolean;
}

/** Logarithm of the mean density of hits over the worlds, with the level that those worlds would bring. */
interface Fit {
  readonly fits: number;
  readonly level: Db;
  readonly variance: number;
}

const fitOf = (
  grounds: HearingGrounds,
  piece: Piece,
  level: number,
  state: HeardState,
  hits: readonly Evidence[],
): Fit => {
  const prediction = grounds.predict(piece, level, state);
  const weights = new Float64Array(WORLDS).fill(1 / WORLDS);
  for (const hit of hits) weigh(weights, prediction, hit);
  let [all, sum, squares] = [0, 0, 0];
  weights.forEach((weight, world) => {
    const its = prediction.level[world] as number;
    all += weight;
    if (!Number.isFinite(its)) return;
    sum += weight * its;
    squares += weight * its * its;
  });
  const mean = sum / all;
  const isSilent = prediction.level.every((its) => its === Number.NEGATIVE_INFINITY);
  return {
    fits: Math.log(all),
    level: isSilent ? Number.NEGATIVE_INFINITY : mean,
    variance: Math.max(0, squares / all - mean * mean),
  };
};

/** Density of any level: what arrives although the state lets nothing through. */
const ANY_LEVEL = 1 / 60;

/** What has less chance than this tells nothing of which drum was hit. */
const LITTLE = 1e-4;

/** Logarithm of the density of what a drum brought, by levels of the overheads, offsets and gains of the phone's input. */
const termsOf = (
  grounds: HearingGrounds,
  piece: Piece,
  state: HeardState,
  { hits, isNothing }: Told,
): Float64Array => {
  const evidence = hits.map(evidenceOf);
  const loud = meanOf(evidence.map((hit) => hit.level));
  const drum = grounds.isLevelKnown(piece) ? DRUM_SPREAD : UNKNOWN_SPREAD;
  const places = grounds.levels.flatMap((_, level) => OFFSETS.map(({ offset }) => ({ level, offset })));
  const terms = new Float64Array(places.length * GAINS.length);
  places.forEach(({ level, offset }, place) => {
    const fit = fitOf(
      grounds,
      piece,
      level,
      state,
      evidence.map((hit) => offsetBy(hit, offset)),
    );
    const spread = Math.sqrt(drum ** 2 + HIT_SPREAD ** 2 / Math.max(1, hits.length) + fit.variance);
    GAINS.forEach((gain, at) => {
      const expected = gain + fit.level;
      let term = fit.fits;
      if (hits.length > 0)
        term += Math.log(Number.isFinite(expected) ? levelDensity(loud - expected, spread) : ANY_LEVEL);
      if (isNothing)
        term += Math.log(
          NOT_HIT + (1 - NOT_HIT) / (1 + Math.exp((LOGISTIC * (expected - HEARD_FROM)) / spread)),
        );
      terms[place * GAINS.length + at] = term;
    });
  });
  return terms;
};

/** Some hits with the drums that may have been hit: one that was asked for, or any of them. */
interface Group {
  readonly pieces: readonly Piece[];
  readonly told: Told;
  /** Places of its entries in the list of what was heard. */
  readonly entries: readonly number[];
}

const groupsOf = (pieces: readonly Piece[], heard: readonly HeardDrum[]): readonly Group[] => {
  const entries = heard.map((one, at) => ({ ...one, at }));
  const group = (of: readonly Piece[], some: typeof entries): Group => ({
    pieces: of,
    told: {
      hits: some.flatMap(({ hit }) => hit ?? []),
      isNothing: some.some(({ hit }) => !hit),
    },
    entries: some.map(({ at }) => at),
  });
  const asked = pieces.map((piece) =>
    group(
      [piece],
      entries.filter((entry) => entry.piece === piece.id),
    ),
  );
  const free = entries
    .filter(({ piece, hit }) => piece === null && hit)
    .map((entry) => group(pieces, [entry]));
  return [...asked.filter(({ entries: some }) => some.length > 0), ...free];
};

/** The chances of the levels of the overheads and of offset and gain of the input, as logarithms, but for a constant. */
const priorsOf = ({ levels }: HearingGrounds): Float64Array =>
  Float64Array.from(
    levels.flatMap((above) =>
      OFFSETS.flatMap(({ prior }) =>
        GAINS.map((gain) => Math.log(above.prior * prior) - (gain / GAIN_SPREAD) ** 2 / 2),
      ),
    ),
  );

/** What is believed after what was heard. */
export const heardBelief = (grounds: HearingGrounds, heard: readonly HeardDrum[]): HeardBelief => {
  const { states, pieces, touches } = grounds;
  const [planned] = states as readonly [HeardState];
  const priors = priorsOf(grounds);
  const groups = groupsOf(pieces, heard);

  /** Of a group, if a drum was hit: by levels of the overheads, offsets and gains of the input. */
  const ofDrum = remembered(({ told }: Group) =>
    remembered((piece: Piece) => {
      const its = grounds.keep(piece, told, () =>
        remembered((state: HeardState) => termsOf(grounds, piece, state, told)),
      );
      return (state: HeardState) => its(touches(state, piece) ? state : planned);
    }),
  );
  const ofGroup = (group: Group, state: HeardState): Float64Array => {
    const [first, ...others] = group.pieces.map((piece) => ofDrum(group)(piece)(state)) as [Float64Array];
    if (others.length === 0) return first;
    return first.map((term, at) => {
      const densities = others.reduce((all, other) => all + Math.exp(other[at] as number), Math.exp(term));
      return Math.log(densities / group.pieces.length);
    });
  };
  const summed = (terms: readonly Float64Array[]): Float64Array =>
    priors.map((prior, at) => terms.reduce((all, term) => all + (term[at] as number), prior));
  const oddly = (term: Float64Array, { told: { hits } }: Group): Float64Array => {
    const own = ODD * OWN_WAY * AGAIN ** Math.max(0, hits.length - 1);
    return term.map((value) => Math.log((1 - ODD) * Math.exp(value) + own));
  };

  const totals = states.map((state) => {
    const terms = groups.map((group) => ofGroup(group, state));
    // Something else is wrong: one of the faults of the whole path, with some drums going their own way.
    const isBase = state.channel === null && state.trim === null;
    return {
      state,
      total: summed(terms),
      odd: isBase ? summed(terms.map((term, at) => oddly(term, groups[at] as Group))) : null,
    };
  });
  // Against the best of all, so that nothing is lost below the smallest number.
  const best = totals.reduce((most, { total }) => Math.max(most, ...total), Number.NEGATIVE_INFINITY);
  const evidence = (values: Float64Array): number => values.reduce((all, v) => all + Math.exp(v - best), 0);
  const bases = totals.flatMap(({ state, odd }) => (odd ? [{ prior: state.prior, odd }] : []));
  const ofBases = sumOf(bases.map(({ prior }) => prior));
  const found = totals.map(({ state, total }) => (1 - UNEXPLAINED_PRIOR) * state.prior * evidence(total));
  const unexplained = sumOf(
    bases.map(({ prior, odd }) => ((UNEXPLAINED_PRIOR * prior) / ofBases) * evidence(odd)),
  );
  const all = sumOf(found) + unexplained;
  const chances = found.map((one) => one / all);

  /** Which drum of a group was hit, by all that is believed. */
  const whichDrum = (group: Group): readonly number[] => {
    const shares = pieces.map(() => 0);
    totals.forEach(({ state, total }, at) => {
      if ((chances[at] as number) < LITTLE) return;
      const whole = evidence(total);
      const densities = group.pieces.map((piece) => ofDrum(group)(piece)(state).map(Math.exp));
      total.forEach((value, place) => {
        const weight = ((chances[at] as number) * Math.exp(value - best)) / whole;
        if (weight < LITTLE) return;
        const any = sumOf(densities.map((density) => density[place] as number));
        densities.forEach((density, drum) => {
          shares[drum] = (shares[drum] as number) + (weight * (density[place] as number)) / any;
        });
      });
    });
    const whole = sumOf(shares);
    return shares.map((share) => share / whole);
  };
  const drums = heard.map(({ piece }) => pieces.map(({ id }) => Number(id === piece)));
  for (const group of groups)
    if (group.pieces.length > 1) for (const at of group.entries) drums[at] = [...whichDrum(group)];
  return { states: chances, unexplained: unexplained / all, drums };
};
