import { formatNumber } from "../lib/number";
import type { Bus, Setup } from "../model/setup";
import type { Db } from "../model/units";
import { busName, channelName } from "../names";
import type { Statement } from "../statements";
import { formatCount } from "../words";
import type { CeilingState, Stage } from "./ceilings";
import type { BusFigures } from "./figures";

/** Names of the ceilings as they stand in a sentence. */
export const CEILING: { readonly [place in Stage]: string } = {
  bus: "the bus",
  output: "the output",
  input: "the receiving input",
};

/** A level or difference to a tenth of a dB. */
export const formatDb = (value: Db): string => formatNumber(value, 1);

/** By how much something is over or short: "1.2 dB", and "just" for what would print as nothing. */
export const formatAmount = (amount: Db): string =>
  formatDb(amount) === "0.0" ? "just" : `${formatDb(amount)} dB`;

const overSaid = (headroom: Db, place: Stage): string =>
  `${formatAmount(-headroom)} over at ${CEILING[place]}`;

/** What is left at a ceiling, in the middle of a sentence: "1.2 dB left at the bus", "just over at the bus". */
export const formatHeadroom = (headroom: Db, place: Stage, state: CeilingState): string =>
  state === "over" ? overSaid(headroom, place) : `${formatDb(headroom)} dB left at ${CEILING[place]}`;

/** What is left where it is less than wanted: a hair under the margin would print as the margin itself. */
const tooLittle = (headroom: Db, margin: Db): string =>
  `${formatDb(headroom) === formatDb(margin) ? "not quite" : "only"} ${formatDb(headroom)} dB`;

const TONE: { readonly [state in CeilingState]: Statement["tone"] } = {
  over: "wrong",
  "under target": "care",
  fine: "fine",
  silent: "care",
  unknown: "care",
};

/** Will it fit? In one line without a full stop, with the ceiling that decides. */
export const describeFit = (
  { lowest }: Pick<BusFigures, "lowest">,
  bus: Pick<Bus, "name">,
  margin: Db,
): Pick<Statement, "tone" | "says"> => {
  const { headroom, place, state } = lowest;
  const says: { readonly [state in CeilingState]: string } = {
    over: `It will not fit: ${overSaid(headroom, place)}`,
    "under target": `It fits, but ${tooLittle(headroom, margin)} are left at ${CEILING[place]}: you want ${formatDb(margin)}`,
    fine: `It fits: ${formatHeadroom(headroom, place, state)}`,
    silent: `Nothing sounds in ${busName(bus)}`,
    unknown: `Will it fit? No peak is known yet in ${busName(bus)}`,
  };
  return { tone: TONE[state], says: says[state] };
};

/** What stands behind that answer, as sentences: the peak that decides and what is loudest in it, or what is missing to know it. */
export const describeFitReason = (
  setup: Pick<Setup, "channels">,
  bus: Pick<Bus, "sends" | "stereo">,
  { lowest, sides, unknown }: Pick<BusFigures, "lowest" | "sides" | "unknown">,
): string => {
  if (bus.sends.length === 0) return "Choose below what goes into it.";
  const { loudest, likely } = sides[lowest.side === "left" ? 0 : 1];
  if (!loudest) return "Enter levels and peaks under Channels, or measure a recording.";
  const side = bus.stereo ? `the ${lowest.side} side` : "the side";
  const peak = `Likely peak ${formatDb(likely)} dBFS on ${side}; loudest in it is ${channelName(setup, loudest.channel)} with ${formatDb(loudest.peak)}.`;
  if (unknown.peak.length === 0) return peak;
  return `${peak} Not counted: ${formatCount(unknown.peak.length, "channel")} without a known peak.`;
};

/** That a bus lacks headroom, as a sentence for another place than its own. */
export const describeShort = (
  { lowest }: Pick<BusFigures, "lowest">,
  bus: Pick<Bus, "name">,
  margin: Db,
): string => {
  const { headroom, place, state } = lowest;
  return state === "over"
    ? `${busName(bus)} will not fit: ${overSaid(headroom, place)}.`
    : `${busName(bus)} has ${tooLittle(headroom, margin)} left at ${CEILING[place]}.`;
};
