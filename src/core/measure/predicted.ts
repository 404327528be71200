import {
  type CeilingState,
  ceilingLevelsOf,
  ceilingsOf,
  limitingStageOf,
  type Stage,
} from "../headroom/ceilings";
import { type BusFigures, busFigures } from "../headroom/figures";
import { type LevelErrors, levelErrorsOf } from "../headroom/level-errors";
import type { SideFigures } from "../headroom/side";
import { convertRms } from "../level/analog";
import { mixedChannelsOf } from "../mix/bus";
import type { Bus, Id, RmsConvention, Setup } from "../model/setup";
import type { Db, Outlet, Sides } from "../model/units";
import { gainsInBus, gainsInto, type MixPeaks, peaksThrough, type TrackPlace } from "./bus-gains";
import type { MeasuredFigures } from "./figures";
import { levelThrough, type MixLevel } from "./levels";

/** What stands beside each other of one side or the mono fold. */
export type PredictedName =
  | "average"
  | "correlated"
  | "level"
  | "likely"
  | "playable"
  | "allAtOnce"
  | "truePeak";

/** An estimate and the measurement of the same thing. */
export interface Predicted {
  /** null where nothing is estimated, as of what lies between the samples. */
  readonly estimate: Db | null;
  /** null where it cannot be told without measuring again. */
  readonly measured: Db | null;
  /** Estimate minus measured, dB; null where one of them is missing or silent. */
  readonly difference: Db | null;
}

/** All of one side or of the mono fold. Levels in the console's rms convention, dBFS. */
export interface PredictedMix {
  readonly mix: Outlet;
  readonly rows: readonly (Predicted & { readonly name: PredictedName })[];
  /** Its peaks are from before a change of the gains. */
  readonly stale: boolean;
}

/** Headroom at one ceiling, dB. */
export interface PredictedCeiling extends Predicted {
  readonly place: Stage;
  /** By the measurement, on the side that comes closest. */
  readonly state: CeilingState;
}

/** A bus as it is estimated and as it was measured. */
export interface BusPredicted {
  /** How far the real levels may lie from the estimated ones; null where nobody knows. */
  readonly levelErrors: LevelErrors | null;
  readonly mixes: readonly PredictedMix[];
  readonly ceilings: readonly PredictedCeiling[];
  /** The one that decides by the measurement. */
  readonly lowest: PredictedCeiling;
  /** Some peak is from before a change, and the measured headroom with it. */
  readonly stale: boolean;
  /** What sounds in the bus and is not in the recording: left out of both sides. */
  readonly missing: readonly Id[];
}

const beside = (estimate: Db | null, measured: Db | null): Predicted => ({
  estimate,
  measured,
  difference:
    estimate !== null && measured !== null && Number.isFinite(estimate) && Number.isFinite(measured)
      ? estimate - measured
      : null,
});

const rowsOf = (
  { average, correlated, level, likely, playable, allAtOnce }: SideFigures,
  { rms, together }: { readonly [name in keyof MixLevel]: Db | null },
  { peak, truePeak }: MixPeaks,
): PredictedMix["rows"] => [
  { name: "average", ...beside(average, rms) },
  ...(correlated === null ? [] : [{ name: "correlated" as const, ...beside(correlated, rms) }]),
  { name: "level", ...beside(level, together) },
  { name: "likely", ...beside(likely, peak) },
  { name: "playable", ...beside(playable, peak) },
  { name: "allAtOnce", ...beside(allAtOnce, peak) },
  { name: "truePeak", ...beside(null, truePeak) },
];

/** The bus with only those sends whose channels are in the recording. */
const recordedOnly = (bus: Bus, places: readonly TrackPlace[]): Bus => {
  const recorded = new Set(places.map((p) => p.channel));
  return { ...bus, sends: bus.sends.filter((s) => recorded.has(s.channel)) };
};

const sidesOf = (bus: Bus, figures: BusFigures): readonly (readonly [Outlet, SideFigures])[] =>
  bus.stereo
    ? [
        ["left", figures.sides[0]],
        ["right", figures.sides[1]],
        ["mono", figures.mono],
      ]
    : [["left", figures.sides[0]]];

const inConvention = (level: Db | null, convention: RmsConvention): Db | null =>
  level === null ? null : convertRms(level, "sample", convention);

/**
 * Estimate beside measurement for a bus as the setup stands now: levels follow every change at once from the products
 * of the tracks, peaks where they can. What is not in the recording is left out of the estimate too.
 * Measured headroom goes by the peaks between the samples: they are what an output makes.
 * @param setup its recording is that of these figures, where the correlated level is wanted
 * @param places of the tracks, in their order
 * @param was gains of the tracks into the sides when they were measured
 */
export const predictedOf = (
  setup: Setup,
  bus: Bus,
  figures: MeasuredFigures,
  places: readonly TrackPlace[],
  was: readonly Sides[],
): BusPredicted => {
  const recorded = recordedOnly(bus, places);
  const estimate = busFigures(setup, recorded);
  const levelErrors = levelErrorsOf(setup, recorded);
  const now = gainsInBus(setup, bus, places);
  const peaks = (mix: Outlet): MixPeaks =>
    peaksThrough(figures.mixes[mix], gainsInto(mix, was), gainsInto(mix, now));
  const mixes = sidesOf(bus, estimate).map(([mix, side]): PredictedMix => {
    const { rms, together } = levelThrough(figures, gainsInto(mix, now));
    const of = peaks(mix);
    const { rms: convention } = setup.desk;
    const levels = { rms: inConvention(rms, convention), together: inConvention(together, convention) };
    return { mix, rows: rowsOf(side, levels, of), stale: of.stale };
  });
  const left = peaks("left");
  const right = bus.stereo ? peaks("right") : left;
  const tops: Sides<Db> = [left.truePeak, right.truePeak];
  const measured = ceilingsOf(ceilingLevelsOf(setup, bus), tops, setup.preferences.targetHeadroom);
  const ceilings = measured.map(
    ({ place, headroom, state }, i): PredictedCeiling => ({
      place,
      state,
      ...beside(estimate.ceilings[i]?.headroom ?? null, headroom),
    }),
  );
  const lowest = ceilings[measured.indexOf(limitingStageOf(measured))] as PredictedCeiling;
  const missing = mixedChannelsOf(setup, bus).flatMap(({ channel }) =>
    places.some((p) => p.channel === channel.id) ? [] : [channel.id],
  );
  return { levelErrors, mixes, ceilings, lowest, stale: mixes.some((m) => m.stale), missing };
};
