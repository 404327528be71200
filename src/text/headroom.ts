import type { CeilingState, Stage } from "../core/headroom/ceilings";
import type { BusFigures } from "../core/headroom/figures";
import { formatNumber, formatPercent } from "../core/lib/number";
import type { Bus } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { busName } from "./names";
import { formatCount } from "./words";

/** Names of the stages as they stand in a sentence. */
export const STAGE_NAMES: { readonly [stage in Stage]: string } = {
  bus: "the bus",
  output: "the output",
  input: "the monitor input",
};

/** A level or difference to a tenth of a dB. */
export const formatDb = (value: Db): string => formatNumber(value, 1);

/** By how much something is over or short: "1.2 dB", and "just" for what would print as nothing. */
export const formatAmount = (amount: Db): string =>
  formatDb(amount) === "0.0" ? "just" : `${formatDb(amount)} dB`;

/** Headroom at a stage, in the middle of a sentence: "1.2 dB left at the bus", "just over at the bus". */
export const formatHeadroom = (headroom: Db, stage: Stage, state: CeilingState): string =>
  state === "over"
    ? `${formatAmount(-headroom)} over at ${STAGE_NAMES[stage]}`
    : `${formatDb(headroom)} dB left at ${STAGE_NAMES[stage]}`;

const STATES: { readonly [state in Exclude<CeilingState, "fine">]: string } = {
  over: "over",
  "under target": "under target",
  silent: "silent",
  unknown: "peaks not entered",
};

/**
 * What stands under the headroom of one ceiling. It is fine only where every peak is known; too much of what is known is
 * too much whatever the rest.
 * @param missing peaks that sound and are not entered
 */
export const describeCeiling = (state: CeilingState, missing: number): string =>
  state !== "fine" ? STATES[state] : missing > 0 ? `${formatCount(missing, "peak")} not entered` : "fine";

/** That a bus lacks headroom, as a sentence for another place than its own. */
export const describeShort = (
  { lowest: { headroom, place, state } }: Pick<BusFigures, "lowest">,
  bus: Pick<Bus, "name">,
): string =>
  state === "over"
    ? `${busName(bus)} does not fit: ${formatHeadroom(headroom, place, state)}.`
    : `${busName(bus)} is under target: ${formatHeadroom(headroom, place, state)}.`;

/** What a channel costs in a bus, in a word or two: "22 % of peak". */
export const describeShare = (share: number | null): string =>
  share === null ? "peak not entered" : `${formatPercent(share)} of peak`;
