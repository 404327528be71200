import { formatClock } from "../core/lib/number";
import type { BusMeasurement, HearingPoint } from "../core/model/setup";
import type { Db, Sides } from "../core/model/units";
import { formatDb } from "./headroom";

const FROM: { readonly [from in HearingPoint]: string } = {
  mixer: "a listener’s mixer",
  bus: "the outputs of the bus",
};

const both = ([left, right]: Sides<Db>): string => `L ${formatDb(left)}, R ${formatDb(right)}`;

/** What was measured of a bus, in few words; the date as the file has it, the same everywhere. */
export const formatMeasured = ({ at, rms, peak }: BusMeasurement): string =>
  `${at.slice(0, 10)} (RMS ${both(rms)} dBFS, peak ${both(peak)} dBFS)`;

/** Peak over rms of a side; null where there is none. */
const crest = (peak: Db | null, rms: Db | null): Db | null =>
  peak !== null && rms !== null && Number.isFinite(peak) && Number.isFinite(rms) ? peak - rms : null;

const crests = (peaks: Sides<Db | null>, levels: Sides<Db | null>): string | null => {
  const [left, right] = [crest(peaks[0], levels[0]), crest(peaks[1], levels[1])];
  return left === null || right === null ? null : both([left, right]);
};

/**
 * When and where a bus was measured, and what of it can be held against the plan whatever the gain of the input.
 * @param date when, as it is read
 * @param planned average RMS and likely peak of each side, by the same convention as `rms`
 */
export const describeMeasured = (
  { from, seconds, peak }: BusMeasurement,
  date: string,
  rms: Sides<Db>,
  planned: { readonly average: Sides<Db | null>; readonly likely: Sides<Db | null> },
): readonly string[] => {
  const [is, was] = [crests(peak, rms), crests(planned.likely, planned.average)];
  return [
    `Measured ${date} at ${FROM[from]}, over ${formatClock(seconds)}. Levels are dBFS at that audio input; its gain is not known.`,
    ...(is && was ? [`Peak over RMS needs no gain: measured ${is} dB, planned ${was} dB.`] : []),
  ];
};
