import { formatNumber, formatSigned } from "../../core/lib/number";
import type { TrackPlace } from "../../core/measure/bus-gains";
import type { Channel } from "../../core/model/setup";
import type { Db } from "../../core/model/units";
import { nameOr } from "../../text/names";

/** A level that may be missing. */
export const level = (value: Db | null, digits = 1): string =>
  value === null ? "–" : formatNumber(value, digits);

/** A difference with its sign. */
export const signed = (value: Db | null): string => (value === null ? "–" : formatSigned(value, 1));

/** A channel of a channel, as it is chosen from a list. */
export const placeName = (channel: Channel, line: TrackPlace["line"]): string =>
  `${nameOr(channel, "channel")}${channel.lines === 2 ? (line === 0 ? " L" : " R") : ""}`;
