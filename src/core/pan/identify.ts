import type { LawId, LawReference } from "../model/setup";
import type { Db, Pan } from "../model/units";
import { byEveryLaw, LAWS, type PanSettings } from "./laws";
import { nextReading } from "./next-reading";
import { isHeard, levelAt, type Reading, type ReadingPoint, sourceLevels } from "./reading";

/** Centre drops of the law whose drop is the desk's own, dB, positive. */
export interface CentreDrops {
  readonly low: Db;
  readonly high: Db;
}

/** One law with a reference, beside the readings. */
export interface LawFit {
  readonly law: LawId;
  readonly reference: LawReference;
  readonly fits: boolean;
  /**
   * How far the level before the pan can move with all readings agreeing, dB: the likelihood of the law, but for a
   * factor. Negative: by how much the readings are off beyond the meter's step. Null for a law of the desk's own drop
   * where no drop fits.
   */
  readonly play: Db | null;
  /** Centre drops that fit, of the law whose drop is the desk's own; null for every other, and where none fits. */
  readonly centre: CentreDrops | null;
}

/** Which laws some readings leave. */
export interface Identification {
  /** Those that fit first, the likeliest of them before the others; a fixed curve before the desk's own drop. */
  readonly ranked: readonly LawFit[];
  /** What is left: laws of a fixed curve, and only where none of them fits the one of the desk's own drop. */
  readonly left: readonly LawFit[];
  /** The reading that would tell most of what is left; null when none would. */
  readonly next: ReadingPoint | null;
  /** The one reading without which some law would fit, where none does; null otherwise. */
  readonly odd: number | null;
  /** Readings that tell nothing: of the silent side of a hard pan. */
  readonly silent: readonly number[];
}

/** Far below every meter's step, above what a computer's digits cost. */
const SLACK: Db = 1e-9;
/** Centre drops that the desk's own law is tried with. */
const DROPS: CentreDrops = { low: 0.5, high: 12 };
/** Fewer readings than this contradict each other without telling which is wrong. */
const TELLING_ODD = 3;

const isFixed = ({ law }: Pick<LawFit, "law">): boolean => law !== LAWS.custom.id;

/** Centre drops by which the desk's own law agrees with all readings: its levels are proportional to the drop. */
const centreDrops = (reference: LawReference, readings: readonly Reading[]): CentreDrops | null => {
  const perDb = readings.map(({ at }) => levelAt({ law: "custom", centreDb: 1, reference }, at));
  let { low, high } = DROPS;
  for (const [i, a] of readings.entries())
    for (const [j, b] of readings.entries()) {
      if (j <= i) continue;
      const slope = (perDb[i] as number) - (perDb[j] as number);
      const apart = a.level - b.level;
      const error = (a.resolution + b.resolution) / 2 + SLACK;
      if (Math.abs(slope) < SLACK) {
        if (Math.abs(apart) > error) return null;
        continue;
      }
      const middle = apart / slope;
      const either = error / Math.abs(slope);
      low = Math.max(low, middle - either);
      high = Math.min(high, middle + either);
    }
  return high < low ? null : { low, high };
};

/** A law as it is tried: the desk's own drop in the middle of those that fit. */
const settingsOf = ({
  law,
  reference,
  centre,
}: Pick<LawFit, "law" | "reference" | "centre">): PanSettings => ({
  law,
  reference,
  centreDb: centre ? (centre.low + centre.high) / 2 : 0,
});

const fitOf = ({ law, reference }: PanSettings, readings: readonly Reading[]): LawFit => {
  const centre = isFixed({ law }) ? null : centreDrops(reference, readings);
  if (!isFixed({ law }) && !centre) return { law, reference, fits: false, play: null, centre };
  const { low, high } = sourceLevels(settingsOf({ law, reference, centre }), readings);
  const play = high - low;
  return { law, reference, fits: centre !== null || play >= -SLACK, play, centre };
};

const byRank = (a: LawFit, b: LawFit): number =>
  Number(b.fits) - Number(a.fits) ||
  (a.fits ? Number(isFixed(b)) - Number(isFixed(a)) : 0) ||
  (b.play ?? Number.NEGATIVE_INFINITY) - (a.play ?? Number.NEGATIVE_INFINITY) ||
  0;

const fitsOf = (readings: readonly Reading[]): readonly LawFit[] =>
  byEveryLaw({ law: "sine", centreDb: 0, reference: "sides" }, (settings) => fitOf(settings, readings))
    .map(({ law, reference, fits, play, centre }) => ({ law, reference, fits, play, centre }))
    .sort(byRank);

/** The one reading without which some law would fit. */
const oddOf = (readings: readonly Reading[]): Reading | null => {
  if (readings.length < TELLING_ODD) return null;
  const odd = readings.filter((reading) =>
    fitsOf(readings.filter((other) => other !== reading)).some(({ fits }) => fits),
  );
  return odd.length === 1 ? (odd[0] ?? null) : null;
};

/**
 * Which pan law, with which reference, some meter readings of one steady channel leave. The level of the channel is
 * unknown unless it was read before the pan; every reading is known to the meter's step. So the likelihood of a law is
 * the width of the span of channel levels by which all readings agree with it, and a law with no such span is ruled out.
 * @param onStep a pan on the desk's nearest step
 */
export const identifyLaw = (
  readings: readonly Reading[],
  onStep: (pan: Pan) => Pan = (pan) => pan,
): Identification => {
  const telling = readings.filter(({ at }) => isHeard(at));
  const ranked = fitsOf(telling);
  const fitting = ranked.filter(({ fits }) => fits);
  const fixed = fitting.filter(isFixed);
  const left = fixed.length > 0 ? fixed : fitting;
  const odd = left.length === 0 ? oddOf(telling) : null;
  return {
    ranked,
    left,
    next: left.length < 2 ? null : nextReading(left.map(settingsOf), telling, onStep),
    odd: odd && readings.indexOf(odd),
    silent: readings.flatMap(({ at }, index) => (isHeard(at) ? [] : [index])),
  };
};
