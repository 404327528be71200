import type { CentreDrops, Identification, LawFit } from "../core/pan/identify";
import { LAWS } from "../core/pan/laws";
import { formatPan } from "../core/pan/notation";
import type { PanNotation } from "../core/pan/notation-styles";
import type { ReadingPoint } from "../core/pan/reading";
import { formatDb } from "./headroom";
import { SIDE_LETTERS, UNITY_NAMES } from "./names";
import { capitalised, formatFew, formatList } from "./words";

/** Where to read the meter: "before the pan, at the channel’s own meter"; "L of the bus, with the pan at C". */
export const formatReadingPoint = (at: ReadingPoint, notation: PanNotation): string =>
  at === "before pan"
    ? "before the pan, at the channel’s own meter"
    : `${SIDE_LETTERS[at.side]} of the bus, with the pan at ${formatPan(at.pan, notation)}`;

const formatDrops = ({ low, high }: CentreDrops): string => {
  const [from, to] = [low, high].map(formatDb);
  return from === to ? `${from} dB` : `${from} to ${to} dB`;
};

/** A law with its reference: "Linear (unity hard-panned)". */
export const formatLawFit = ({ law, reference, centre }: LawFit): string =>
  `${LAWS[law].name}${centre ? `, ${formatDrops(centre)}` : ""} (unity ${UNITY_NAMES[reference]})`;

/** A law that is ruled out, and by how much the readings are off beyond the meter’s step. */
export const describeRuledOut = (fit: LawFit): string => {
  if (fit.play === null) return `${formatLawFit(fit)}: no drop fits`;
  const off = formatDb(-fit.play);
  return `${formatLawFit(fit)}: ${Number(off) === 0 ? "just off" : `${off} dB off`}`;
};

const formatReadings = (numbers: readonly number[]): string =>
  `${numbers.length === 1 ? "reading" : "readings"} ${formatList(numbers.map(String))}`;

const named = (fit: LawFit): string => `“${formatLawFit(fit)}”`;

const describeLeft = ({ left, ranked, next, odd }: Identification, notation: PanNotation): string[] => {
  const [first] = left;
  if (!first)
    return [
      "No law fits these readings.",
      odd === null
        ? "Check that the tone is steady, and that fader and send are at 0 dB."
        : `Reading ${odd} contradicts the others: read it again.`,
    ];
  if (left.length === 1) {
    const { centre } = ranked.find((fit) => fit !== first && fit.fits) ?? { centre: null };
    return centre
      ? [`${named(first)} fits. So does a custom centre drop of ${formatDrops(centre)}.`]
      : [`Only ${named(first)} fits.`];
  }
  return [
    `${left.length} laws fit: ${formatFew(left, named)}.`,
    next
      ? `Read next: ${formatReadingPoint(next, notation)}.`
      : "No other reading is likely to tell them apart: use the first.",
  ];
};

/**
 * What the readings leave, and what to read next, as sentences.
 * @param numbers what each reading is called on the screen
 */
export const describeIdentified = (
  found: Identification,
  numbers: readonly number[],
  notation: PanNotation,
): readonly string[] => {
  const numberOf = (index: number): number => numbers[index] as number;
  const silent = found.silent.map(numberOf);
  const nothing = silent.length === 1 ? "tells nothing" : "tell nothing";
  const ignored =
    silent.length === 0
      ? []
      : [`${capitalised(formatReadings(silent))} ${nothing}: a hard pan leaves that side silent.`];
  const telling = numbers.length - silent.length;
  const odd = found.odd === null ? null : numberOf(found.odd);
  return [
    ...ignored,
    ...(telling < 2 ? ["Enter at least two readings."] : describeLeft({ ...found, odd }, notation)),
  ];
};
