import { formatNumber, formatSigned } from "../core/lib/number";
import type { Listener, Setup } from "../core/model/setup";
import type { Image, ImageRow } from "../core/stereo/image";
import type { Placement } from "../core/stereo/placement";
import { earPosition, loudspeakerAngle } from "../core/stereo/position";
import type { SwitchedOff } from "../core/stereo/switched-off";
import { type ImageCode, type ImageVerdict, imageVerdict } from "../core/stereo/verdict";
import { busName, channelName, listenerName, sideName } from "./names";
import { type Statement, type Tone, tickUnless } from "./statement";
import { capitalised, formatCount, formatFew, formatInputs } from "./words";

/** What to do about a listener who hears no bus. */
export const CHOOSE_BUS = "Choose the bus they hear.";

/** On which side a channel is heard, as a mark beside it. */
export const PLACEMENT_NAMES: { readonly [placement in Placement]: string } = {
  right: "right side",
  wrong: "wrong side",
  centred: "centred",
  unplaced: "not placed",
};

/** Where something stands or is heard, in the middle of a sentence. */
const formatSide = (place: ImageRow["stands"]): string =>
  place === "middle" ? "in the centre" : place === null ? "nowhere" : `on the ${place}`;

const TONES: { readonly [code in ImageCode]: Tone } = {
  "no bus": "care",
  silent: "care",
  "switched off": "care",
  "side-on": "care",
  "mono mixer": "care",
  "mono bus": "care",
  "folded bus": "care",
  "nothing placed": "care",
  "one placed": "care",
  swapped: "wrong",
  "mixed up": "wrong",
  "all belong in the centre": "fine",
  "all centred": "care",
  right: "fine",
  "partly centred": "care",
};
const TONES_OF_ONE: { readonly [placement in Placement]: Tone } = {
  right: "fine",
  wrong: "wrong",
  centred: "care",
  unplaced: "care",
};

/** What of a bus is off: "Drums L is off". */
export const describeOff = (setup: Pick<Setup, "buses">, busId: string, { sides }: SwitchedOff): string => {
  const bus = setup.buses.find((b) => b.id === busId);
  const [only] = sides;
  if (!bus?.stereo) return `${busName(bus)} is off`;
  return sides.length === 1 && only ? `${sideName(bus, only)} is off` : `${busName(bus)} L and R are off`;
};

/** What to do about it, as a sentence. */
export const describeOffRemedy = ({ inputs }: Pick<SwitchedOff, "inputs">): string =>
  `Turn ${formatInputs(inputs)} on at the monitor system.`;

const describeHeardOf = (setup: Setup, who: string, { bus, off, heardIn }: ImageVerdict): string => {
  if (!bus || !off) return "";
  const what = describeOff(setup, bus, off);
  const [left, right] = heardIn;
  if (!off.remains || (!left && !right)) return `${what}: ${who} hears nothing of it`;
  const where = left && right ? "both ears" : `the ${left ? "left" : "right"} ear`;
  return `${what}: ${who} hears only ${off.remains === "left" ? "L" : "R"}, in ${where}`;
};

/** The headline and what stands behind it, of what is particular to each case. */
const particular = (
  setup: Setup,
  who: string,
  verdict: ImageVerdict,
): readonly [says: string, more: string] => {
  const { code, placed, wrong, centred, off } = verdict;
  const bus = setup.buses.find((b) => b.id === verdict.bus);
  const feed = verdict.hears === "foh" ? "FOH" : busName(bus);
  const names = (ids: readonly string[]): string => formatFew(ids, (id) => channelName(setup, id));
  const [first] = placed;
  const only = first ? channelName(setup, first.channel) : "";
  switch (code) {
    case "no bus":
      return [`${capitalised(who)} hears no bus`, CHOOSE_BUS];
    case "silent":
      return verdict.hears === "foh"
        ? ["No channel is on at FOH", "Every channel is muted, or there is none."]
        : [`${feed} is silent`, "Turn on a send of a channel that is not muted."];
    case "switched off":
      return [describeHeardOf(setup, who, verdict), off ? describeOffRemedy(off) : ""];
    case "side-on":
      return [
        `${capitalised(who)} stands side-on to the kit: there is no left or right from there`,
        "No swap and no pan is right or wrong for them.",
      ];
    case "mono mixer":
      return [`${capitalised(who)} listens in mono: no left or right to judge`, ""];
    case "mono bus":
      return [`${feed} is mono: no left or right for ${who}`, ""];
    case "folded bus":
      return [`${feed} is folded to mono: no left or right for ${who}`, ""];
    case "nothing placed":
      return [
        `No channel in ${feed} is placed at the kit`,
        "Choose the piece for a channel, and its side can be judged.",
      ];
    case "one placed":
      return [
        `Only ${only} is placed for ${who}: ${first ? PLACEMENT_NAMES[first.placement] : ""}`,
        first ? `It stands ${formatSide(first.stands)} and is heard ${formatSide(first.heard)}.` : "",
      ];
    case "swapped":
      return [
        `L/R swapped for ${who}: ${wrong.length} of ${placed.length} on the wrong side`,
        `Wrong side: ${names(wrong)}.`,
      ];
    case "mixed up":
      return [
        `L/R mixed up for ${who}: ${wrong.length} of ${placed.length} on the wrong side`,
        `Wrong side: ${names(wrong)}.`,
      ];
    case "all belong in the centre":
      return [`Everything is centred for ${who}, where it belongs`, ""];
    case "all centred":
      return [
        `Everything is centred for ${who}`,
        `${names(centred)} ${centred.length === 1 ? "stands" : "stand"} to one side: pan ${centred.length === 1 ? "it" : "them"}.`,
      ];
    case "right":
      return [`All on the right side for ${who}`, ""];
    case "partly centred":
      return [
        `${centred.length} of ${placed.length} centred for ${who}, the rest on the right side`,
        `Centred, or off centre without standing there: ${names(centred)}.`,
      ];
  }
};

/** What belongs to some cases alike, as sentences. */
const common = (setup: Setup, { code, sidesLost, unplaced, unassigned, bus }: ImageVerdict): string[] => {
  if (code === "no bus" || code === "silent" || code === "switched off") return [];
  const lost =
    sidesLost.length === 0
      ? []
      : [
          `${formatFew(sidesLost, (id) => channelName(setup, id))} ${sidesLost.length === 1 ? "is" : "are"} set to keep L/R and ${sidesLost.length === 1 ? "has" : "have"} lost it.`,
        ];
  const judged = code !== "side-on" && !code.startsWith("mono") && code !== "folded bus";
  const without =
    judged && code !== "nothing placed" && unplaced > 0
      ? [`${formatCount(unplaced, "channel")} not placed at the kit.`]
      : [];
  const name = busName(setup.buses.find((b) => b.id === bus));
  const later = unassigned ? [`${name} is unassigned: this is what will be heard once it has inputs.`] : [];
  return [...lost, ...without, ...later];
};

/** One line on what a listener gets, true and useful whatever the case. */
export const describeImage = (setup: Setup, listener: Listener, image: Image): Statement => {
  const verdict = imageVerdict(setup, listener, image);
  const [only] = verdict.placed;
  const [says, more] = particular(setup, listenerName(listener), verdict);
  const tone = verdict.code === "one placed" && only ? TONES_OF_ONE[only.placement] : TONES[verdict.code];
  return {
    tone: tickUnless(verdict.sidesLost.length > 0 || verdict.unassigned || verdict.drumsUnplaced > 0, tone),
    says,
    more: [more, ...common(setup, verdict)].filter(Boolean).join(" "),
  };
};

/** Right over left, dB, with its sign; a dash where nothing is heard. */
export const formatDifference = ({ heard, difference }: Pick<ImageRow, "heard" | "difference">): string =>
  heard === null ? "–" : formatSigned(difference, 1);

/** A lateral position −1…+1 in words: "hard left", "40 % right", "centre". */
const formatLateral = (position: number): string => {
  const side = position < 0 ? "left" : "right";
  if (Math.abs(position) >= 1) return `hard ${side}`;
  // Nearly is not hard.
  const share = Math.min(99, Math.round(100 * Math.abs(position)));
  return share === 0 ? "centre" : `${share} % ${side}`;
};

/** Where something stands or is heard, as a cell: "left", "centre", "silent". */
export const formatSideCell = (place: ImageRow["stands"], none: string): string =>
  place === "middle" ? "centre" : (place ?? none);

/**
 * How far to a side something is heard, in words. With in-ear monitors by the difference: under 1 dB in the centre,
 * hard at one side from 15 dB; at FOH as the pan that sin/cos would need.
 */
export const formatPlace = (
  hears: Image["hears"],
  row: Pick<ImageRow, "heard" | "difference" | "position">,
): string => {
  if (row.heard === null) return "silent";
  if (hears === "foh") return formatLateral(row.position ?? 0);
  return row.heard === "middle" ? "centre" : formatLateral(earPosition(row.difference));
};

/** Angle before two loudspeakers by the tangent law, in words: "12.3° left"; a dash where nothing is heard. */
export const formatAngle = ({ sides }: Pick<ImageRow, "sides">): string => {
  const angle = loudspeakerAngle(sides);
  if (angle === null) return "–";
  const text = formatNumber(Math.abs(angle), 1);
  return Number(text) === 0 ? "0°" : `${text}° ${angle < 0 ? "left" : "right"}`;
};

/** A score with its sign, such as "+0.94". */
export const formatScore = (score: number): string => formatSigned(score, 2);

/** What a listener gets, counted, with the score: "7 on the right side, 1 on the wrong side, 2 not placed, score +0.76". */
export const formatTally = ({ hears, count, sidesLost, score }: Image): string => {
  if (hears === "nothing") return "";
  return [
    `${count.right} on the right side`,
    `${count.wrong} on the wrong side`,
    count.centred > 0 ? `${count.centred} centred` : "",
    `${count.unplaced} not placed`,
    sidesLost > 0 ? `L/R lost on ${sidesLost}` : "",
    score === null ? "no score" : `score ${formatScore(score)}`,
  ]
    .filter(Boolean)
    .join(", ");
};
