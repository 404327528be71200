import { levelOf } from "../level/decibels";
import { ANSWERS } from "../model/kinds";
import type { Answer } from "../model/setup";
import type { Db } from "../model/units";
import { levelDifference } from "../stereo/position";
import { PEOPLE, type Person } from "./people";
import type { EarImage } from "./wiring";

/** Shares of the answers, by answer. */
export type Shares = Readonly<Record<Answer, number>>;

const PLACE = Object.fromEntries(ANSWERS.map((answer, at) => [answer, at])) as Readonly<
  Record<Answer, number>
>;
/** Place of an answer in every list of chances. */
export const placeOf = (answer: Answer): number => PLACE[answer];

/** How people answer what they hear: a model, not a measurement. */
export const RESPONSE_MODEL = {
  /** Standard deviation of what is heard about what is there. A design choice: between a calm room and a loud stage. */
  blurDb: 2,
  /** Below the planned level from here on "nothing" is said, and from there on always. A design choice: lost beside the bare drum. */
  nothingFromDb: 12,
  nothingToDb: 36,
  /** Who never says "can’t place it" calls an inverted pair the middle so often, else a side. A design choice. */
  invertedMiddle: 0.7,
} as const;

/** Slope of the logistic curve that runs closest to a normal distribution of deviation 1; textbook. */
const LOGISTIC = 1.702;

const chanceBelow = (limit: Db, heard: Db): number =>
  1 / (1 + Math.exp((-LOGISTIC * (limit - heard)) / RESPONSE_MODEL.blurDb));

/** Share of "nothing" for something so far below its planned level. */
const nothingShare = (below: Db): number => {
  const { nothingFromDb, nothingToDb } = RESPONSE_MODEL;
  return Math.max(0, Math.min(1, (below - nothingFromDb) / (nothingToDb - nothingFromDb)));
};

/** What of an image decides the answers. */
export interface HitChannel {
  /** Right over left, dB. */
  readonly difference: Db;
  /** How far the louder ear is below the plan, dB. */
  readonly below: Db;
  readonly inverted: boolean;
}

/** Shares of the answers of one person, lapses included; they sum to 1. */
export const sharesOf = (
  { threshold, offset, admits, lapseRate }: Person,
  { difference, below, inverted }: HitChannel,
): Shares => {
  const nothing = nothingShare(below);
  const placed = 1 - nothing;
  const left = chanceBelow(-threshold, difference + offset);
  const right = 1 - chanceBelow(threshold, difference + offset);
  const rest = Math.max(0, 1 - left - right);
  const astray = inverted && !admits ? (rest * (1 - RESPONSE_MODEL.invertedMiddle)) / 2 : 0;
  const middle = inverted ? (admits ? 0 : rest - 2 * astray) : rest;
  const pressed = (share: number): number =>
    (1 - lapseRate) * share + (lapseRate * (1 - share)) / (ANSWERS.length - 1);
  return {
    left: pressed(placed * (left + astray)),
    middle: pressed(placed * middle),
    right: pressed(placed * (right + astray)),
    nothing: pressed(nothing),
    unclear: pressed(inverted && admits ? placed * rest : 0),
  };
};

const louder = ({ sides }: EarImage): number => Math.max(sides[0], sides[1]);

/** Beyond this an image cannot be farther to one side; a lone ear is there. */
const FARTHEST: Db = 40;
/** Steps in which images count as the same, so that few lists of chances are made. Far below the blur. */
const STEP: Db = 0.25;
const BELOW_STEP: Db = 3;

const stepped = (value: Db, step: Db, most: Db): Db =>
  Math.round(Math.max(-most, Math.min(most, value)) / step) * step || 0;

/** What the answers go by, in steps. */
export const heardOf = (image: EarImage, planned: EarImage): HitChannel => {
  const most = RESPONSE_MODEL.nothingToDb;
  if (louder(image) === 0) return { difference: 0, below: most, inverted: false };
  const below = louder(planned) === 0 ? 0 : levelOf(louder(planned)) - levelOf(louder(image));
  return {
    difference: stepped(levelDifference(image.sides), STEP, FARTHEST),
    below: stepped(Math.max(0, below), BELOW_STEP, most),
    inverted: image.inverted,
  };
};

/** Chance of every answer by every person: answer by answer in the order of `ANSWERS`, in it person by person. */
export type Chances = Float64Array;

/** Makes lists of chances; images that are heard alike get the very same list. */
export const chancesMaker = (): ((heard: HitChannel) => Chances) => {
  const made = new Map<number, Chances>();
  return (heard) => {
    // In whole steps, so that no two of them have the same key.
    const steps = (heard.difference + FARTHEST) / STEP;
    const key = 2 * (steps * (RESPONSE_MODEL.nothingToDb + 1) + heard.below) + Number(heard.inverted);
    const known = made.get(key);
    if (known) return known;
    const chances = new Float64Array(ANSWERS.length * PEOPLE.length);
    PEOPLE.forEach((person, at) => {
      const shares = sharesOf(person, heard);
      for (const answer of ANSWERS) chances[placeOf(answer) * PEOPLE.length + at] = shares[answer];
    });
    made.set(key, chances);
    return chances;
  };
};

/** Chances of the answers to one probe, a list for each level of the overheads; the same object where nothing differs. */
export type ProbeChances = readonly Chances[];

/** Share of the answers by which two lists of chances differ, 0…1 (total variation distance). */
export const differenceOf = (a: readonly number[], b: readonly number[]): number =>
  a === b ? 0 : a.reduce((sum, p, at) => sum + Math.abs(p - (b[at] as number)), 0) / 2;

/** Weight of every person at every level of the overheads: level by level, in it person by person. */
export type Joint = Float64Array;

/** Before the first hit. @param levels chance of each level of the overheads */
export const priorJoint = (levels: readonly number[]): Joint =>
  Float64Array.from(levels.flatMap((level) => PEOPLE.map((person) => level * person.prior)));

/** Chances of the answers to one probe, in the order of `ANSWERS`, over everybody as they are believed to be. */
export const predicted = (joint: Joint, chances: ProbeChances): readonly number[] => {
  const people = PEOPLE.length;
  const sums = ANSWERS.map(() => 0);
  let all = 0;
  // Spelt out: this is the innermost loop of every question.
  for (let answer = 0; answer < sums.length; answer++) {
    let sum = 0;
    for (let level = 0; level < chances.length; level++) {
      const list = chances[level] as Float64Array;
      for (let at = 0; at < people; at++)
        sum += (joint[level * people + at] as number) * (list[answer * people + at] as number);
    }
    sums[answer] = sum;
    all += sum;
  }
  return sums.map((sum) => sum / all);
};
