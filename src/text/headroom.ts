import type { CeilingState, Stage } from "../core/headroom/ceilings";
import type { DirectOutFigures } from "../core/headroom/direct-outs";
import type { ExposureRule, ExposureValue } from "../core/headroom/earphone";
import type { BusFigures } from "../core/headroom/figures";
import { type FitCode, type FitVerdict, fitVerdict } from "../core/headroom/verdict";
import { formatNumber, formatPercent } from "../core/lib/number";
import type { Bus, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { busName, channelName, sideName } from "./names";
import { type Statement, type Tone, tickUnless } from "./statement";
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

const TONES: { readonly [code in FitCode]: Tone } = {
  "no sends": "care",
  silent: "care",
  "no peaks": "care",
  over: "wrong",
  "under target": "care",
  fits: "fine",
};

const peaksMissing = ({ missing, sounding }: FitVerdict): string =>
  `${missing} of ${formatCount(sounding, "peak")} not entered`;

const describeKnown = ({ code, stage, headroom, short, missing }: FitVerdict): string => {
  if (code === "over") return `does not fit: ${formatHeadroom(headroom, stage, "over")}`;
  const under = code === "under target" ? `, ${formatAmount(short)} under target` : "";
  const left = formatHeadroom(headroom, stage, "fine");
  return missing > 0 ? `fits with ${left}${under}` : `fits: ${left}${under}`;
};

const headline = (verdict: FitVerdict, name: string): string => {
  switch (verdict.code) {
    case "no sends":
      return `No sends to ${name}`;
    case "silent":
      return `${name} is silent: every send is off or muted`;
    case "no peaks":
      return `No peaks entered for ${name}`;
    default:
      return verdict.missing > 0
        ? `${peaksMissing(verdict)}: what is known ${describeKnown(verdict)}`
        : describeKnown(verdict).replace(/^./, (first) => first.toUpperCase());
  }
};

const hardFill = ({ hardFill: fill }: FitVerdict): string =>
  fill === null
    ? ""
    : `A hard fill can ${formatDb(fill.over) === "0.0" ? "just clip" : "clip"} ${STAGE_NAMES[fill.stage]}${formatDb(fill.over) === "0.0" ? "" : ` by ${formatDb(fill.over)} dB`}.`;

/** The peak that decides and the loudest channel in it, or what to enter to know it. */
const reason = (
  setup: Pick<Setup, "channels">,
  bus: Pick<Bus, "name" | "stereo">,
  { side, code }: FitVerdict,
  { sides }: Pick<BusFigures, "sides">,
): string => {
  if (code === "no sends") return "Choose its channels below.";
  const { loudest, likely } = sides[side === "left" ? 0 : 1];
  if (!loudest)
    return code === "silent"
      ? "Turn on a send of a channel that is not muted."
      : "Enter peaks on Channels, or measure a recording.";
  return `Likely peak ${formatDb(likely)} dBFS on ${sideName(bus, side)}. Loudest: ${channelName(setup, loudest.channel)}, ${formatDb(loudest.peak)} dBFS.`;
};

/** Whether a bus fits: what is left at the limiting stage, what a hard fill can do, and the peak that decides. */
export const describeFit = (
  setup: Pick<Setup, "channels" | "preferences">,
  bus: Bus,
  figures: Pick<BusFigures, "lowest" | "hardFill" | "sides" | "unknown">,
): Statement => {
  const verdict = fitVerdict(figures, bus, setup.preferences.targetHeadroom);
  const fill = hardFill(verdict);
  return {
    tone: tickUnless(verdict.missing > 0 || fill !== "", TONES[verdict.code]),
    says: headline(verdict, busName(bus)),
    more: [fill, reason(setup, bus, verdict, figures)].filter(Boolean).join(" "),
  };
};

/** That a bus lacks headroom, as a sentence for another place than its own. */
export const describeShort = (
  { lowest: { headroom, place, state } }: Pick<BusFigures, "lowest">,
  bus: Pick<Bus, "name">,
): string =>
  state === "over"
    ? `${busName(bus)} does not fit: ${formatHeadroom(headroom, place, state)}.`
    : `${busName(bus)} is under target: ${formatHeadroom(headroom, place, state)}.`;

/** A direct out as a row: channel, peak, headroom and limiting stage. */
export const describeDirectOut = (
  setup: Pick<Setup, "channels">,
  { channel, peak, lowest: { headroom, place, state } }: DirectOutFigures,
): readonly [name: string, peak: string, headroom: string, stage: string] => {
  const name = channelName(setup, channel);
  if (peak === null) return [name, "not entered", "–", "–"];
  if (state === "silent") return [name, "silent", "–", "–"];
  return [name, formatDb(peak), formatDb(headroom), STAGE_NAMES[place].replace(/^the /, "")];
};

/** Exposure rules as they are named beside the time. */
export const EXPOSURE_RULES: { readonly [rule in ExposureRule["id"]]: string } = {
  niosh: "NIOSH 98-126: 85 dBA for 8 h, half the time for each 3 dB",
  osha: "OSHA 29 CFR 1910.95: 90 dBA for 8 h, half the time for each 5 dB",
};

/** Values of Directive 2003/10/EC as it calls them. */
export const EXPOSURE_VALUES: { readonly [value in ExposureValue]: string } = {
  limit: "limit value",
  upper: "upper action value",
  lower: "lower action value",
};

/** What a channel costs in a bus, in a word or two: "22 % of peak". */
export const describeShare = (share: number | null): string =>
  share === null ? "peak not entered" : `${formatPercent(share)} of peak`;
