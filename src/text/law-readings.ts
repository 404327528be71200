import { formatNumber } from "../core/lib/number";
import type { Desk } from "../core/model/setup";
import type { Identification, LawFit, ReadingPoint } from "../core/pan/identify";
import { LAWS } from "../core/pan/laws";
import { formatPan } from "../core/pan/notation";
import { SIDE_LETTERS, UNITY_NAMES } from "./names";
import { formatList } from "./words";

/** Where to read the meter: "before the pan, at the channel’s own meter"; "L of the bus, with the pan at C". */
export const formatReadingPoint = (at: ReadingPoint, desk: Pick<Desk, "panStyle" | "panSteps">): string =>
  at === "before pan"
    ? "before the pan, at the channel’s own meter"
    : `${SIDE_LETTERS[at.side]} of the bus, with the pan at ${formatPan(at.pan, desk)}`;

const formatDrop = ({ low, high }: NonNullable<LawFit["centre"]>): string => {
  const [from, to] = [low, high].map((drop) => formatNumber(drop, 1));
  return from === to ? `${from} dB` : `${from} to ${to} dB`;
};

/** A law with its reference: "Linear, unity hard-panned". */
export const formatLawFit = ({ law, reference, centre }: LawFit): string =>
  `${LAWS[law].name}${centre ? ` of ${formatDrop(centre)}` : ""}, unity ${UNITY_NAMES[reference]}`;

/** What the readings say of a law: "fits", or by how much it is out. */
export const describeLawFit = ({ fits, missedBy }: LawFit): string =>
  fits ? "fits" : `ruled out: ${formatNumber(missedBy, 1)} dB off`;

/** What the readings leave, and what to read next, as sentences. */
export const describeIdentified = (
  { left, next, odd }: Identification,
  readings: number,
  desk: Pick<Desk, "panStyle" | "panSteps">,
): readonly string[] => {
  const more = next ? [`Read next: ${formatReadingPoint(next, desk)}.`] : [];
  if (readings < 2) return ["Enter at least two readings.", ...more];
  if (left.length === 0)
    return [
      "No law fits these readings.",
      odd === null
        ? "Check that the level is steady, and that fader and send are at 0 dB."
        : `Reading ${odd + 1} contradicts the others: read it again.`,
    ];
  if (left.length === 1) return [`${left.map(formatLawFit).join("")}: only this fits.`];
  const few = left.length <= 4 ? `: ${formatList(left.map(formatLawFit).map((name) => `“${name}”`))}` : "";
  return [
    `${left.length} laws fit${few}.`,
    ...(next ? more : ["No reading with this meter tells them apart. Take the likeliest."]),
  ];
};
