import { levelOf } from "./decibels";
import { LAWS, type PanSettings, panGains } from "./laws";
import { lateralPosition, levelDifference, loudspeakerAngle } from "./position";
import type { LawId, LawReference } from "./setup";
import type { Db, Degrees, Legs, Pan } from "./units";

/** One pan by one law: what it gives, and how far that is from what the console is believed to give. */
export interface LawRow {
  readonly law: LawId;
  readonly reference: LawReference;
  /** The console's own law and reference, as it is set. */
  readonly believed: boolean;
  readonly gains: Legs;
  /** Level of each leg, dB. */
  readonly levels: Legs<Db>;
  /** Right over left, dB. */
  readonly difference: Db;
  /** Lateral position, −1…+1. */
  readonly position: number;
  /** Angle before two loudspeakers at ±30°, positive to the right. */
  readonly angle: Degrees;
  /** How far the image moves if the console's law is this one instead, dB of level difference, positive to the right. */
  readonly imageMove: Db;
  /** How far each leg's level moves then, dB; 0 for a leg that is silent by both. */
  readonly levelMove: Legs<Db>;
}

/** Two levels apart; 0 when both are the same, silence too. */
const apart = (to: Db, from: Db): Db => (to === from ? 0 : to - from);

/**
 * One pan by every law with both references, in the order in which laws are shown, sides first.
 * @param settings the console as it is believed to be; its centre attenuation is the "custom" law's in every row
 */
export const acrossLaws = (settings: PanSettings, pan: Pan): LawRow[] => {
  const believed = panGains(settings, pan);
  const row = (law: LawId, reference: LawReference): LawRow => {
    const gains = panGains({ law, reference, centreDb: settings.centreDb }, pan);
    return {
      law,
      reference,
      believed: law === settings.law && reference === settings.reference,
      gains,
      levels: [levelOf(gains[0]), levelOf(gains[1])],
      difference: levelDifference(gains),
      // A law never silences both legs, so there is always an image.
      position: lateralPosition(gains) as number,
      angle: loudspeakerAngle(gains) as Degrees,
      imageMove: apart(levelDifference(gains), levelDifference(believed)),
      levelMove: [
        apart(levelOf(gains[0]), levelOf(believed[0])),
        apart(levelOf(gains[1]), levelOf(believed[1])),
      ],
    };
  };
  return Object.values(LAWS).flatMap(({ id }) => [row(id, "sides"), row(id, "centre")]);
};
