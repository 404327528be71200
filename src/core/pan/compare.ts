import { levelOf } from "../level/decibels";
import type { Db, Degrees, Pan, Sides } from "../model/units";
import { levelDifference, loudspeakerAngle } from "../stereo/position";
import { byEveryLaw, type LawCase, type PanSettings, panGains } from "./laws";

/** One pan by one law: what it gives, and how far that is from what the console is believed to give. */
export interface LawRow extends LawCase {
  /** Right over left, dB. */
  readonly difference: Db;
  /** Angle before two loudspeakers at ±30°, positive to the right. */
  readonly angle: Degrees;
  /** How far the image moves if the console's law is this one instead, dB of level difference, positive to the right. */
  readonly imageMove: Db;
  /** How far each side's level moves then, dB; 0 for a side that is silent by both. */
  readonly levelMove: Sides<Db>;
}

/** Two levels apart; 0 when both are the same, silence too. */
const apart = (to: Db, from: Db): Db => (to === from ? 0 : to - from);

/**
 * One pan by every law with both references, in the order of `byEveryLaw`.
 * @param settings the console as it is believed to be; its centre attenuation is the "custom" law's in every row
 */
export const compareLaws = (settings: PanSettings, pan: Pan): LawRow[] => {
  const believed = panGains(settings, pan);
  return byEveryLaw(settings, (other) => {
    const gains = panGains(other, pan);
    const difference = levelDifference(gains);
    const move = (side: 0 | 1): Db => apart(levelOf(gains[side]), levelOf(believed[side]));
    return {
      difference,
      // A law never silences both sides, so there is always an image.
      angle: loudspeakerAngle(gains) as Degrees,
      imageMove: apart(difference, levelDifference(believed)),
      levelMove: [move(0), move(1)] as const,
    };
  });
};
