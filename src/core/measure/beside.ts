import { convertRms } from "../analog";
import { partsOf } from "../mix";
import type { Id, RmsConvention, Setup, Sum } from "../setup";
import { type CeilingPlace, type CeilingState, ceilingsOf, limitsOf } from "../sum/ceilings";
import { type SumFigures, sumFigures } from "../sum/figures";
import type { LegFigures } from "../sum/leg";
import type { LevelError } from "../sum/levelerror";
import type { Db, Legs, Outlet } from "../units";
import type { MeasuredFigures } from "./figures";
import { levelThrough } from "./levels";
import { gainsInSum, gainsInto, type MixPeaks, peaksThrough, type TrackPlace } from "./through";

/** What stands beside each other of one leg or the mono fold. */
export type BesideName = "level" | "correlated" | "likely" | "playable" | "allAtOnce" | "truePeak";

/** An estimate and the measurement of the same thing. */
export interface Beside {
  /** null where nothing is estimated, as of what lies between the samples. */
  readonly estimate: Db | null;
  /** null where it cannot be told without measuring again. */
  readonly measured: Db | null;
  /** Estimate minus measured, dB; null where one of them is missing or silent. */
  readonly difference: Db | null;
}

/** All of one leg or of the mono fold. Levels in the console's rms convention, dBFS. */
export interface BesideMix {
  readonly mix: Outlet;
  readonly rows: readonly (Beside & { readonly name: BesideName })[];
  /** Its peaks are from before a change of the gains. */
  readonly stale: boolean;
}

/** Headroom at one ceiling, dB. */
export interface BesideCeiling extends Beside {
  readonly place: CeilingPlace;
  /** By the measurement, on the leg that comes closest. */
  readonly state: CeilingState;
}

/** A sum as it is estimated and as it was measured. */
export interface SumBeside {
  /** How good the estimated levels are. */
  readonly levelError: LevelError;
  readonly mixes: readonly BesideMix[];
  readonly ceilings: readonly BesideCeiling[];
  /** Some peak is from before a change, and the measured headroom with it. */
  readonly stale: boolean;
  /** What sounds in the sum and is not in the recording: left out of both sides. */
  readonly missing: readonly Id[];
}

const beside = (estimate: Db | null, measured: Db | null): Beside => ({
  estimate,
  measured,
  difference:
    estimate !== null && measured !== null && Number.isFinite(estimate) && Number.isFinite(measured)
      ? estimate - measured
      : null,
});

const rowsOf = (
  { level, correlated, likely, playable, allAtOnce }: LegFigures,
  playing: Db | null,
  { peak, truePeak }: MixPeaks,
): BesideMix["rows"] => [
  { name: "level", ...beside(level, playing) },
  ...(correlated === null ? [] : [{ name: "correlated" as const, ...beside(correlated, playing) }]),
  { name: "likely", ...beside(likely, peak) },
  { name: "playable", ...beside(playable, peak) },
  { name: "allAtOnce", ...beside(allAtOnce, peak) },
  { name: "truePeak", ...beside(null, truePeak) },
];

/** The sum with only those sends whose sources are in the recording. */
const recordedOnly = (sum: Sum, places: readonly TrackPlace[]): Sum => {
  const recorded = new Set(places.map((p) => p.source));
  return { ...sum, sends: sum.sends.filter((s) => recorded.has(s.source)) };
};

const legsOf = (sum: Sum, figures: SumFigures): readonly (readonly [Outlet, LegFigures])[] =>
  sum.stereo
    ? [
        ["left", figures.legs[0]],
        ["right", figures.legs[1]],
        ["mono", figures.mono],
      ]
    : [["left", figures.legs[0]]];

const inConvention = (level: Db | null, convention: RmsConvention): Db | null =>
  level === null ? null : convertRms(level, "sample", convention);

/**
 * Estimate beside measurement for a sum as the setup stands now: levels follow every change at once from the products
 * of the tracks, peaks where they can. What is not in the recording is left out of the estimate too.
 * Measured headroom goes by the peaks between the samples: they are what an output makes.
 * @param setup its recording is that of these figures, where the correlated level is wanted
 * @param places of the tracks, in their order
 * @param was gains of the tracks into the legs when they were measured
 */
export const besideOf = (
  setup: Setup,
  sum: Sum,
  figures: MeasuredFigures,
  places: readonly TrackPlace[],
  was: readonly Legs[],
): SumBeside => {
  const estimate = sumFigures(setup, recordedOnly(sum, places));
  const now = gainsInSum(setup, sum, places);
  const peaks = (mix: Outlet): MixPeaks =>
    peaksThrough(figures.mixes[mix], gainsInto(mix, was), gainsInto(mix, now));
  const mixes = legsOf(sum, estimate).map(([mix, leg]): BesideMix => {
    const { playing } = levelThrough(figures, gainsInto(mix, now));
    const of = peaks(mix);
    return { mix, rows: rowsOf(leg, inConvention(playing, setup.console.rms), of), stale: of.stale };
  });
  const left = peaks("left");
  const right = sum.stereo ? peaks("right") : left;
  const tops: Legs<Db> = [left.truePeak, right.truePeak];
  const ceilings = ceilingsOf(limitsOf(setup, sum), tops, setup.wishes.margin).map(
    ({ place, headroom, state }, i): BesideCeiling => ({
      place,
      state,
      ...beside(estimate.ceilings[i]?.headroom ?? null, headroom),
    }),
  );
  const missing = partsOf(setup, sum).flatMap(({ source }) =>
    places.some((p) => p.source === source.id) ? [] : [source.id],
  );
  const { levelError } = estimate;
  return { levelError, mixes, ceilings, stale: mixes.some((m) => m.stale), missing };
};
