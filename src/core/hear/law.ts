import type { Db, Pan, Sides } from "../model/units";

/**
 * What the phone measured of a steady sound with one pan set: level of each side, noise taken off, dBFS rms.
 * `readingsOf(measured)` makes of two to five of them the readings that `identifyLaw` (core/pan/identify) takes.
 */
export interface MeasuredPan {
  readonly pan: Pan;
  readonly levels: Sides<Db>;
  /** Standard error of the levels, dB. */
  readonly error: Db;
}
