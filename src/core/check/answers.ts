import { levelOf } from "../level/decibels";
import type { Answer } from "../model/setup";
import type { Db } from "../model/units";
import { OFF_CENTRE_DB } from "../stereo/placement";
import { CENTRE_DB, levelDifference, SIDE_DB } from "../stereo/position";
import type { EarImage } from "./wiring";

/** The five answers, in the order of the buttons and of every list of chances. */
export const ANSWERS: readonly Answer[] = ["left", "middle", "right", "nothing", "unclear"];

/** A point of a graded zone: at this many dB, this share of the answers; straight between the points. */
export interface Grade {
  readonly at: Db;
  readonly share: number;
  readonly why: string;
}

/** How people answer: a model, not a measurement. Each figure with its reason. */
export const ANSWER_MODEL: {
  readonly side: readonly Grade[];
  readonly nothing: readonly Grade[];
  readonly slip: { readonly share: number; readonly why: string };
} = {
  /** Share of "left" or "right" by the difference between the ears; the rest says "middle", or "unclear" when inverted. */
  side: [
    { at: CENTRE_DB, share: 0, why: "smallest difference heard, Mills, JASA 32 (1960)" },
    { at: 3, share: 0.6, why: "common practice, no source: clearly off the middle" },
    { at: OFF_CENTRE_DB, share: 0.9, why: "design choice: two fifths of the way to one side" },
    { at: 10, share: 0.98, why: "a secondary text: the image begins to widen about here" },
    { at: SIDE_DB, share: 1, why: "a secondary text: from 15–20 dB fully at one side" },
  ],
  /** Share of "nothing" by how far the louder ear is below what was planned. */
  nothing: [
    { at: 20, share: 0, why: "design choice: still heard beside the bare drum" },
    { at: 40, share: 1, why: "design choice: lost under the bare drum" },
  ],
  slip: { share: 0.05, why: "design choice: one answer in twenty is a wrong button or a wrong word" },
};

const graded = (grades: readonly Grade[], at: Db): number => {
  const above = grades.findIndex((g) => at < g.at);
  if (above === 0) return 0;
  const to = grades[above];
  const from = grades[above - 1];
  if (!to || !from) return grades.at(-1)?.share ?? 0;
  return from.share + ((to.share - from.share) * (at - from.at)) / (to.at - from.at);
};

const louder = ({ sides }: EarImage): number => Math.max(sides[0], sides[1]);

/**
 * Share of each answer for what the ears get, in the order of `ANSWERS`, before slips; sums to 1.
 * @param planned what the ears should get of the same hit
 */
export const answerShares = (image: EarImage, planned: EarImage): readonly number[] => {
  if (louder(image) === 0) return [0, 0, 0, 1, 0];
  const nothing = graded(ANSWER_MODEL.nothing, levelOf(louder(planned)) - levelOf(louder(image)));
  const difference = levelDifference(image.sides);
  const side = (1 - nothing) * graded(ANSWER_MODEL.side, Math.abs(difference));
  const rest = 1 - nothing - side;
  return [
    difference < 0 ? side : 0,
    image.inverted ? 0 : rest,
    difference < 0 ? 0 : side,
    nothing,
    image.inverted ? rest : 0,
  ];
};

/** Chance of each answer with slips: a slip is any of the other four alike. */
export const withSlips = (shares: readonly number[], slip: number): readonly number[] =>
  shares.map((share) => (1 - slip) * share + (slip * (1 - share)) / (ANSWERS.length - 1));
