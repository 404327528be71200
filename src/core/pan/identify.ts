import { levelOf } from "../level/decibels";
import type { LawId, LawReference } from "../model/setup";
import type { Db, Pan, Side } from "../model/units";
import { byEveryLaw, LAWS, type PanSettings, panGains } from "./laws";

/** Where the meter of one steady channel is read: before its pan, or at one side of the bus with the pan set so. */
export type ReadingPoint = "before pan" | { readonly pan: Pan; readonly side: Side };

/** What a meter showed. */
export interface Reading {
  readonly at: ReadingPoint;
  readonly level: Db;
  /** Step of the meter, dB, positive: what it shows is the true level to the nearest or the last step. */
  readonly resolution: Db;
}

/** One law with a reference, beside the readings. */
export interface LawFit {
  readonly law: LawId;
  readonly reference: LawReference;
  readonly fits: boolean;
  /** Against the likeliest one's, 0…1; 0 for one that is ruled out. */
  readonly likelihood: number;
  /** What the readings would have to be off beyond the resolution, dB; 0 for one that fits. */
  readonly missedBy: Db;
  /** Centre drops that fit, of the law whose drop is the desk's own; null for every other, and where none fits. */
  readonly centre: { readonly low: Db; readonly high: Db } | null;
}

/** Which laws some readings leave. */
export interface Identification {
  /** The likeliest first, those ruled out last. */
  readonly ranked: readonly LawFit[];
  /** What is left: laws of a fixed curve, and only where none of them fits the one of the desk's own drop. */
  readonly left: readonly LawFit[];
  /** The reading that would tell most of what is left; null when none would. */
  readonly next: ReadingPoint | null;
  /** The one reading without which some law would fit, where none does; null otherwise. */
  readonly odd: number | null;
}

/** What a channel may be turned up by before its pan, dB, so that all readings agree with a law. */
interface Span {
  readonly low: Db;
  readonly high: Db;
}

/** Far below every meter's step, above what a computer's digits cost. */
const SLACK: Db = 1e-9;
/** Centre drops that the desk's own law can have, dB. */
const DROPS = { low: 0.5, high: 12 };
/** Share of what is left that a reading must be expected to rule out to be worth it. A design choice. */
const WORTH = 0.02;

/** Level at a point of a channel that has 0 dB before its pan. */
const levelAt = (settings: PanSettings, at: ReadingPoint): Db =>
  at === "before pan" ? 0 : levelOf(panGains(settings, at.pan)[at.side === "left" ? 0 : 1]);

/** Whether a reading at a point tells anything: a hard-panned channel's other side is silent by every law. */
const isHeard = (at: ReadingPoint): boolean =>
  at === "before pan" || (at.side === "left" ? at.pan < 1 : at.pan > -1);

/** The levels of the source by which all readings agree; empty (high below low) where there are none. */
const spanOf = (settings: PanSettings, readings: readonly Reading[]): Span => {
  const sources = readings.map(({ at, level }) => level - levelAt(settings, at));
  const halves = readings.map(({ resolution }) => resolution / 2);
  return {
    low: Math.max(...sources.map((source, i) => source - (halves[i] as number))),
    high: Math.min(...sources.map((source, i) => source + (halves[i] as number))),
  };
};

/** Centre drops by which the desk's own law agrees with all readings: its levels are proportional to the drop. */
const dropsOf = (reference: LawReference, readings: readonly Reading[]): Span | null => {
  const perDb = readings.map(({ at }) => levelAt({ law: "custom", centreDb: 1, reference }, at));
  let { low, high } = DROPS;
  for (const [i, a] of readings.entries())
    for (const [j, b] of readings.entries()) {
      if (j <= i) continue;
      const slope = (perDb[i] as number) - (perDb[j] as number);
      const apart = a.level - b.level;
      const error = (a.resolution + b.resolution) / 2 + SLACK;
      if (Math.abs(slope) < SLACK) {
        if (Math.abs(apart) > error) return null;
        continue;
      }
      const ends = [(apart - error) / slope, (apart + error) / slope].sort((x, y) => x - y);
      low = Math.max(low, ends[0] as number);
      high = Math.min(high, ends[1] as number);
    }
  return high < low ? null : { low, high };
};

const fitOf = (settings: PanSettings, readings: readonly Reading[]): LawFit & { readonly room: Db } => {
  const { law, reference } = settings;
  const centre = law === "custom" ? dropsOf(reference, readings) : null;
  const inForce = centre ? { ...settings, centreDb: (centre.low + centre.high) / 2 } : settings;
  const { low, high } = spanOf(inForce, readings);
  const fits = law === "custom" ? centre !== null : high - low >= -SLACK;
  return {
    law,
    reference,
    fits,
    room: high - low,
    likelihood: fits ? Math.max(0, high - low) : 0,
    missedBy: fits ? 0 : low - high,
    centre,
  };
};

/** Readings that people can take, in the order in which they are easiest, with the pan on the desk's own steps. */
const pointsOf = (onStep: (pan: Pan) => Pan): ReadingPoint[] => [
  "before pan",
  { pan: 0, side: "left" },
  { pan: -1, side: "left" },
  ...[0.5, 0.75, 0.25].flatMap((share): ReadingPoint[] => [
    { pan: onStep(-share), side: "right" },
    { pan: onStep(-share), side: "left" },
  ]),
];

/** Share of the levels that a meter may show if one law is the desk's which the other could show too, 0…1. */
const confused = (a: Span, b: Span): number => {
  const both = Math.min(a.high, b.high) - Math.max(a.low, b.low);
  return Math.max(0, Math.min(1, both / (a.high - a.low)));
};

const nextOf = (
  left: readonly LawFit[],
  readings: readonly Reading[],
  onStep: (pan: Pan) => Pan,
): ReadingPoint | null => {
  const [first] = readings;
  if (!first) return "before pan";
  if (left.length < 2) return null;
  const resolution = Math.max(...readings.map((r) => r.resolution));
  const laws = left.map(({ law, reference, centre }) => {
    const settings = { law, reference, centreDb: centre ? (centre.low + centre.high) / 2 : 0 };
    return { settings, span: spanOf(settings, readings) };
  });
  const share = (at: ReadingPoint): number => {
    const shown = laws.map(({ settings, span }) => {
      const through = levelAt(settings, at);
      return { low: span.low + through - resolution / 2, high: span.high + through + resolution / 2 };
    });
    const all = shown.flatMap((a) => shown.map((b) => confused(a, b)));
    return all.reduce((sum, p) => sum + p, 0) / all.length;
  };
  let best: ReadingPoint | null = null;
  let least = 1 - WORTH;
  for (const at of pointsOf(onStep)) {
    const remains = share(at);
    if (remains > least - SLACK) continue;
    least = remains;
    best = at;
  }
  return best;
};

/**
 * Which pan law, with which reference, some meter readings of one steady channel leave. The level of the channel is
 * unknown unless it was read before the pan; every reading is known to the meter's step. So the likelihood of a law is
 * the width of the span of channel levels by which all readings agree with it, and a law with no such span is ruled out.
 * @param onStep a pan on the desk's nearest step
 */
export const identifyLaw = (
  readings: readonly Reading[],
  onStep: (pan: Pan) => Pan = (pan) => pan,
): Identification => {
  const telling = readings.filter(({ at }) => isHeard(at));
  const fitsOf = (some: readonly Reading[]) =>
    byEveryLaw({ law: "sine", centreDb: 3, reference: "sides" }, (settings) => fitOf(settings, some));
  const all = fitsOf(telling);
  const best = Math.max(...all.map(({ likelihood }) => likelihood));
  const ranked = all
    .sort((a, b) => Number(b.fits) - Number(a.fits) || b.room - a.room)
    .map(({ law, reference, fits, likelihood, missedBy, centre }) => ({
      law,
      reference,
      fits,
      likelihood: best > 0 ? likelihood / best : Number(fits),
      missedBy,
      centre,
    }));
  const fitting = ranked.filter(({ fits }) => fits);
  const fixed = fitting.filter(({ law }) => law !== LAWS.custom.id);
  const left = fixed.length > 0 ? fixed : fitting;
  const without = readings.filter((_, at) =>
    fitsOf(telling.filter((reading) => reading !== readings[at])).some(({ fits }) => fits),
  );
  const [odd] = without;
  return {
    ranked,
    left,
    next: nextOf(left, telling, onStep),
    odd:
      left.length === 0 && telling.length > 2 && odd && without.length === 1 ? readings.indexOf(odd) : null,
  };
};
