import type { Db, Pan, Sides } from "../model/units";
import type { Reading } from "../pan/reading";

/** What was measured of a steady sound with one pan set. */
export interface MeasuredPan {
  readonly pan: Pan;
  /** Level of each side, noise taken off, dBFS rms; −∞ for a side with nothing above the noise. */
  readonly levels: Sides<Db>;
  /** Standard error of the levels, dB. */
  readonly error: Db;
}

/** Standard deviations that the step of a reading spans: what lies outside is one in twenty thousand. */
const SPANS = 8;
/** No measurement is better than this, dB. A design choice: what knobs and converters do between two pans. */
const LEAST_STEP: Db = 0.1;

/** The readings that `identifyLaw` takes of what was measured at several pans; a silent side is none. */
export const readingsOf = (measured: readonly MeasuredPan[]): readonly Reading[] =>
  measured.flatMap(({ pan, levels, error }) =>
    (["left", "right"] as const).flatMap((side, at) => {
      const level = levels[at] as Db;
      if (!Number.isFinite(level)) return [];
      return [{ at: { pan, side }, level, resolution: Math.max(LEAST_STEP, SPANS * error) }];
    }),
  );
