import type { BusFigures } from "../core/headroom/figures";
import { type FitCode, type FitFigures, type FitVerdict, fitVerdict } from "../core/headroom/verdict";
import type { Bus, Setup } from "../core/model/setup";
import { formatAmount, formatDb, formatHeadroom, STAGE_NAMES } from "./headroom";
import { busName, channelName, sideName } from "./names";
import { type Statement, type Tone, tickUnless } from "./statement";
import { capitalised, formatCount } from "./words";

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
        : capitalised(describeKnown(verdict));
  }
};

/** The second part of the verdict: what a hard fill can do. */
const hardFill = ({ hardFill: fill, missing }: FitVerdict): string => {
  if (fill === null) return "";
  const { stage, headroom, isPlayed } = fill;
  const what = isPlayed ? "A hard fill" : "All peaks aligned";
  const where = STAGE_NAMES[stage];
  const amount = formatDb(Math.abs(headroom));
  if (headroom >= 0)
    return `${missing > 0 ? "By the peaks entered, a" : "A"} hard fill leaves ${amount} dB at ${where}.`;
  return amount === "0.0" ? `${what} can just clip ${where}.` : `${what} can clip ${where} by ${amount} dB.`;
};

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
  figures: FitFigures,
): Statement => {
  const verdict = fitVerdict(figures, bus, setup.preferences.targetHeadroom);
  const fill = hardFill(verdict);
  const clips = (verdict.hardFill?.headroom ?? 0) < 0;
  return {
    tone: tickUnless(verdict.missing > 0 || clips, TONES[verdict.code]),
    says: headline(verdict, busName(bus)),
    more: [fill, reason(setup, bus, verdict, figures)].filter(Boolean).join(" "),
  };
};
