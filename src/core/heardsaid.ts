import { formatNumber, formatSigned } from "./lib/number";
import type { Image, ImageRow } from "./stereo/image";
import { earPosition, loudspeakerAngle } from "./stereo/position";

/** Right over left, dB, with its sign; a dash where nothing is heard. */
export const formatDifference = ({ heard, difference }: Pick<ImageRow, "heard" | "difference">): string =>
  heard === null ? "–" : formatSigned(difference, 1);

/** A lateral position −1…+1 in words: "fully left", "40 % right", "middle". */
const lateralSaid = (position: number): string => {
  const side = position < 0 ? "left" : "right";
  if (Math.abs(position) >= 1) return `fully ${side}`;
  // Nearly is not fully.
  const share = Math.min(99, Math.round(100 * Math.abs(position)));
  return share === 0 ? "middle" : `${share} % ${side}`;
};

/**
 * How far to a side something is heard, in words. In ear-worn monitors by the difference: under 1 dB in the middle,
 * fully at one side from 15 dB; at FOH as the pan that sin/cos would need.
 */
export const formatPlace = (
  hears: Image["hears"],
  row: Pick<ImageRow, "heard" | "difference" | "position">,
): string => {
  if (row.heard === null) return "silent";
  if (hears === "foh") return lateralSaid(row.position ?? 0);
  return row.heard === "middle" ? "middle" : lateralSaid(earPosition(row.difference));
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

/** What a listener gets, counted, with the score: "7 correct, 1 wrong, 2 unplaceable (2 without a place), score +0.76". */
export const formatTally = ({ hears, count, rows, sideOn, sidesLost, score }: Image): string => {
  if (hears === "nothing") return "";
  const nowhere = sideOn ? 0 : rows.filter((r) => r.stands === null).length;
  return [
    `${count.right} correct`,
    `${count.wrong} wrong`,
    count.centred > 0 ? `${count.centred} flat` : "",
    `${count.unplaced} unplaceable${nowhere > 0 ? ` (${nowhere} without a place)` : ""}`,
    sidesLost > 0 ? `sides of ${sidesLost} lost` : "",
    score === null ? "no score" : `score ${formatScore(score)}`,
  ]
    .filter(Boolean)
    .join(", ");
};
