import type { Id, MeasuredChannel, Recording } from "../core/model/setup";
import { LIMITS, RANGES } from "./limits";
import { fields, list, number, orNull, type Reader, text } from "./reader";

/** A measured level; JSON has no −∞, so silence is null in a file. */
export const measuredLevel: Reader<number> = (value, at, say) =>
  value === null
    ? Number.NEGATIVE_INFINITY
    : number(RANGES.measured, Number.NEGATIVE_INFINITY)(value, at, say);

/** A recording whose correlations are not one for each two channels is left out whole: a wrong figure is worse than none. */
export const recordingField = (id: Reader<Id>): Reader<Recording | null> => {
  const measured = fields<MeasuredChannel>({
    channel: id,
    rms: measuredLevel,
    gatedRms: measuredLevel,
    peak: measuredLevel,
    truePeak: measuredLevel,
    fast: measuredLevel,
    slow: measuredLevel,
    activity: orNull(number(RANGES.share, null)),
  });

  const figuresOf = fields<Recording>({
    name: text("Recording", LIMITS.note),
    seconds: number(RANGES.seconds, 0),
    channels: list(measured, LIMITS.channels),
    correlation: list(list(number(RANGES.correlation, 0), LIMITS.channels), LIMITS.channels),
  });

  return (value, at, say) => {
    const read = figuresOf(value, at, say);
    const size = read.channels.length;
    if (read.correlation.length === size && read.correlation.every((row) => row.length === size)) return read;
    say({ code: "not square", at: `${at}.correlation`, size });
    return null;
  };
};
