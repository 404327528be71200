import { sourceCalled, sumCalled } from "../called";
import { printNumber } from "../number";
import type { Setup, Sum } from "../setup";
import type { Statement } from "../statements";
import type { Db } from "../units";
import { counted } from "../words";
import type { CeilingPlace, CeilingState } from "./ceilings";
import type { SumFigures } from "./figures";

/** Names of the ceilings as they stand in a sentence. */
export const CEILING: { readonly [place in CeilingPlace]: string } = {
  sum: "the sum",
  output: "the output",
  input: "the receiving input",
};

/** A level or difference to a tenth of a dB. */
export const db = (value: Db): string => printNumber(value, 1);

/** By how much something is over or short: "1.2 dB", and "just" for what would print as nothing. */
export const byHowMuch = (amount: Db): string => (db(amount) === "0.0" ? "just" : `${db(amount)} dB`);

const overSaid = (headroom: Db, place: CeilingPlace): string =>
  `${byHowMuch(-headroom)} over at ${CEILING[place]}`;

/** What is left at a ceiling, in the middle of a sentence: "1.2 dB left at the sum", "just over at the sum". */
export const roomSaid = (headroom: Db, place: CeilingPlace, state: CeilingState): string =>
  state === "over" ? overSaid(headroom, place) : `${db(headroom)} dB left at ${CEILING[place]}`;

/** What is left where it is less than wanted: a hair under the margin would print as the margin itself. */
const tooLittle = (headroom: Db, margin: Db): string =>
  `${db(headroom) === db(margin) ? "not quite" : "only"} ${db(headroom)} dB`;

const TONE: { readonly [state in CeilingState]: Statement["tone"] } = {
  over: "wrong",
  "inside margin": "care",
  fine: "fine",
  silent: "care",
  unknown: "care",
};

/** Will it fit? In one line without a full stop, with the ceiling that decides. */
export const fitLine = (
  { lowest }: Pick<SumFigures, "lowest">,
  sum: Pick<Sum, "name">,
  margin: Db,
): Pick<Statement, "tone" | "says"> => {
  const { headroom, place, state } = lowest;
  const says: { readonly [state in CeilingState]: string } = {
    over: `It will not fit: ${overSaid(headroom, place)}`,
    "inside margin": `It fits, but ${tooLittle(headroom, margin)} are left at ${CEILING[place]}: you want ${db(margin)}`,
    fine: `It fits: ${roomSaid(headroom, place, state)}`,
    silent: `Nothing sounds in ${sumCalled(sum)}`,
    unknown: `Will it fit? No peak is known yet in ${sumCalled(sum)}`,
  };
  return { tone: TONE[state], says: says[state] };
};

/** What stands behind that answer, as sentences: the peak that decides and what is loudest in it, or what is missing to know it. */
export const fitReason = (
  setup: Pick<Setup, "sources">,
  sum: Pick<Sum, "sends" | "stereo">,
  { lowest, legs, unknown }: Pick<SumFigures, "lowest" | "legs" | "unknown">,
): string => {
  if (sum.sends.length === 0) return "Choose below what goes into it.";
  const { loudest, likely } = legs[lowest.leg === "left" ? 0 : 1];
  if (!loudest) return "Enter levels and peaks under Kit, or measure a recording.";
  const leg = sum.stereo ? `the ${lowest.leg} leg` : "the leg";
  const peak = `Likely peak ${db(likely)} dBFS on ${leg}; loudest in it is ${sourceCalled(setup, loudest.source)} with ${db(loudest.peak)}.`;
  if (unknown.peak.length === 0) return peak;
  return `${peak} Not counted: ${counted(unknown.peak.length, "source")} without a known peak.`;
};

/** That a sum lacks headroom, as a sentence for another place than its own. */
export const shortLine = (
  { lowest }: Pick<SumFigures, "lowest">,
  sum: Pick<Sum, "name">,
  margin: Db,
): string => {
  const { headroom, place, state } = lowest;
  return state === "over"
    ? `${sumCalled(sum)} will not fit: ${overSaid(headroom, place)}.`
    : `${sumCalled(sum)} has ${tooLittle(headroom, margin)} left at ${CEILING[place]}.`;
};
