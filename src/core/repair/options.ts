import type { Db } from "../model/units";
import type { Tally } from "../stereo/placement";
import { numberOfWay, tallyOf } from "./added";
import { badnessOf, type Cost, FREE, weightOf } from "./badness";
import { type Hearing, hearingNow, type Over } from "./hearing";
import { oversOf, ownOver } from "./overs";
import { type Choice, hasSides, OWN_CHOICES, type PairState, pairStates, SHARED_CHOICES } from "./parts";
import { type Member, type Situation, talliesOfOthers } from "./situation";

/** What comes of one choice for one listener, with the pair in one state. */
export interface Option {
  readonly choice: Choice;
  readonly hearing: Hearing;
  readonly tally: Tally;
  /** Its badness as one number. */
  readonly weight: number;
  readonly cost: Cost;
}

/** More than there are patterns of voices in one search and what would change it. */
const PATTERNS = 2 ** 20;

const patternOf = (situation: Situation, over: Over | null): number => (over ? situation.numberOf(over) : 0);

/** Worked out once for each member: the situations of what would change the answer share their members. */
const once = (
  rows: Map<number, readonly Option[]>,
  key: number,
  work: () => readonly Option[],
): readonly Option[] => {
  const known = rows.get(key);
  if (known) return known;
  const fresh = work();
  rows.set(key, fresh);
  return fresh;
};

const option = (
  situation: Situation,
  member: Member,
  choice: Choice,
  hearing: Hearing,
  cost: Cost,
): Option => {
  const tally = tallyOf(situation, member, hearing);
  return { choice, hearing, tally, weight: weightOf(badnessOf(tally)), cost };
};

/** A state of the pair with all that may be done for each listener in it. */
export interface PairOptions {
  readonly pair: PairState;
  /** Voices panned over in the bus, and at FOH. */
  readonly over: Over | null;
  readonly foh: Over | null;
  readonly cost: Cost;
  /** For each member their options, "none" first. */
  readonly members: readonly (readonly Option[])[];
  /** For those who do not hear the bus, what they get. */
  readonly others: readonly Tally[];
}

/** How many inputs a pair of one's own takes. */
const OWN_INPUTS = 2;
/** Making the copy, and patching it. */
const OWN_MOVES = 2;

const count = (over: Over | null): number => over?.filter(Boolean).length ?? 0;

const worst = (situation: Situation, of: (at: number) => Db): Db => {
  let most = 0;
  for (let at = 0; at < situation.voices.length; at += 1) most = Math.max(most, of(at));
  return most;
};

/** What comes of hearing the pair as everybody does, or flipped. */
const sharedOption = (
  situation: Situation,
  member: Member,
  choice: (typeof SHARED_CHOICES)[number],
  pair: Hearing,
  residual: Db,
): Option => {
  const { listener } = member;
  const flips = choice === "flip";
  const cost = { ...FREE, flips: flips ? 1 : 0, residual: listener.mono ? 0 : residual };
  return option(situation, member, choice, { ...pair, flipped: listener.flipped !== flips }, cost);
};

/** What comes of a pair of one's own, whatever is done with the pair; only FOH can bear on it. */
const ownOptions = (situation: Situation, member: Member, foh: Over | null): readonly Option[] =>
  once(member.own, patternOf(situation, foh), () => {
    const { listener } = member;
    const cost: Cost = { ...FREE, inputs: OWN_INPUTS, patch: OWN_MOVES };
    const now: Hearing = { ...hearingNow(listener), foh };
    const over = ownOver(situation, member);
    const exact = worst(situation, (at) => (over?.[at] ? (situation.voices[at]?.residual[1][0] ?? 0) : 0));
    const panned = { ...cost, pans: count(over), residual: listener.mono ? 0 : exact };
    return OWN_CHOICES.map((choice) =>
      choice === "own reversed"
        ? option(situation, member, choice, { ...now, order: "mirror" }, cost)
        : option(situation, member, choice, { ...now, over }, panned),
    );
  });

/** All that may be done for one listener with the pair in one state, "none" first. */
const optionsFor = (situation: Situation, member: Member, pair: Hearing, residual: Db): readonly Option[] => {
  const { over, foh } = pair;
  const patterns = patternOf(situation, over) * PATTERNS + patternOf(situation, foh);
  return once(member.options, numberOfWay(pair) * PATTERNS ** 2 + patterns, () => {
    const shared = (choice: (typeof SHARED_CHOICES)[number]): Option =>
      sharedOption(situation, member, choice, pair, residual);
    return hasSides(situation.bus)
      ? [...SHARED_CHOICES.map(shared), ...ownOptions(situation, member, foh)]
      : [shared("none")];
  });
};

/** All that may be done, state by state; a state in which no pan would move is the same as keeping the pans and left out. */
export const optionsOf = (situation: Situation): PairOptions[] => {
  const asNow = talliesOfOthers(situation, null);
  return pairStates(situation.setup, situation.bus).flatMap((pair): PairOptions[] => {
    const { over, foh } = oversOf(situation, pair);
    if (pair.pan !== "keep" && !over && !foh) return [];
    const residual = worst(situation, (at) =>
      pair.fold ? 0 : (situation.voices[at]?.residual[over?.[at] ? 1 : 0][pair.swap ? 1 : 0] ?? 0),
    );
    const hearing: Hearing = {
      over,
      foh,
      order: pair.swap ? "swapped" : "as now",
      folded: pair.fold,
      flipped: false,
    };
    return [
      {
        pair,
        over,
        foh,
        cost: {
          ...FREE,
          patch: (pair.swap ? 1 : 0) + (pair.fold ? 1 : 0),
          pans: count(pair.pan === "bus" ? over : foh),
          residual: worst(situation, (at) => (foh?.[at] ? (situation.voices[at]?.fohResidual ?? 0) : 0)),
        },
        members: situation.members.map((member) => optionsFor(situation, member, hearing, residual)),
        others: foh ? talliesOfOthers(situation, foh) : asNow,
      },
    ];
  });
};
