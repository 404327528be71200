import { gainOf } from "../level/decibels";
import type { Db, Gain } from "../model/units";
import { likelyPeak } from "./totals";

/** A pull by more than this takes a channel out of the mix: then it is no recommendation. A design choice. */
export const MOST_PULL: Db = 12;
/** More sends than this are better pulled all together. A design choice. */
export const MOST_SENDS = 4;

/** Choices looked at before giving up: all that sixteen sends have, 1 + 16 + 120 + 560 + 1820, and some. */
const MOST_LOOKS = 3000;

/** One side: the peak every send brings to it, and what their likely peak may be. */
export interface SideLimit {
  readonly peaks: readonly Gain[];
  readonly limit: Gain;
}

/** Which sends to pull, as indices, and by how many steps each. */
export interface StepPulls {
  readonly sends: readonly number[];
  readonly steps: number;
}

interface Side extends SideLimit {
  /** Indices of the sends, loudest first. */
  readonly order: readonly number[];
  readonly squares: number;
}

const sideOf = (side: SideLimit): Side => ({
  ...side,
  order: side.peaks.map((_, i) => i).sort((a, b) => (side.peaks[b] as number) - (side.peaks[a] as number)),
  squares: side.peaks.reduce((sum, p) => sum + p * p, 0),
});

/**
 * Lowest likely peak on one side with the chosen sends pulled and `more` others, of those that are free, too.
 * On one side the loudest are the best to pull: pulling a louder instead of a softer one never leaves a higher peak.
 */
const lowest = (
  { peaks, order, squares }: Side,
  chosen: readonly number[],
  more: number,
  free: (send: number) => boolean,
  factor: Gain,
): Gain => {
  let left = more;
  let top: Gain | null = null;
  let rest = squares;
  let topPulled = 0;
  const pull = (peak: Gain): void => {
    rest -= (1 - factor * factor) * peak * peak;
    topPulled = Math.max(topPulled, factor * peak);
  };
  for (const send of chosen) pull(peaks[send] as number);
  for (const send of order) {
    if (left === 0 && top !== null) break;
    if (chosen.includes(send)) continue;
    const peak = peaks[send] as number;
    if (left > 0 && free(send)) {
      pull(peak);
      left -= 1;
    } else top ??= peak;
  }
  const loudest = Math.max(top ?? 0, topPulled);
  return likelyPeak(loudest, Math.max(0, rest - loudest * loudest));
};

/** The sends in the order in which they are tried: those first that take most of a side's limit. */
const trialOrder = (sides: readonly Side[]): readonly number[] => {
  const weights = (sides[0]?.peaks ?? []).map((_, send) =>
    sides.reduce((most, side) => Math.max(most, (side.peaks[send] as number) / side.limit), 0),
  );
  return weights.map((_, i) => i).sort((a, b) => (weights[b] as number) - (weights[a] as number));
};

/** Looks for exactly `count` sends that keep every side under its limit when pulled by a factor. */
const search = (
  sides: readonly Side[],
  sends: readonly number[],
  rank: readonly number[],
  count: number,
  factor: Gain,
): readonly number[] | null | "gave up" => {
  let looks = 0;
  const complete = (chosen: readonly number[], from: number): readonly number[] | null => {
    looks += 1;
    if (looks > MOST_LOOKS) return null;
    const more = count - chosen.length;
    const free = (send: number): boolean => (rank[send] as number) >= from;
    if (sides.some((side) => lowest(side, chosen, more, free, factor) > side.limit)) return null;
    if (more === 0) return chosen;
    for (let at = from; at <= sends.length - more; at += 1) {
      const found = complete([...chosen, sends[at] as number], at + 1);
      if (found) return found;
    }
    return null;
  };
  const found = complete([], 0);
  return looks > MOST_LOOKS ? "gave up" : found;
};

/**
 * The fewest sends whose pull brings every side under its limit, and of those the choice that needs the least pull,
 * the same for each. What it returns is exact: it looks through all choices, leaving out only those that even their
 * best completion on one side cannot save.
 * @param step the console's level step, dB
 * @param pullable whether a send may be pulled at all
 * @returns null where more than `MOST_SENDS` sends or more than `MOST_PULL` would be needed, or where there are too
 * many choices to look through: only with more than 16 sends, and then only with dozens of nearly equal ones
 */
export const fewestPulls = (
  limits: readonly SideLimit[],
  step: Db,
  pullable: (send: number) => boolean,
): StepPulls | null => {
  const sides = limits.map(sideOf);
  const order = trialOrder(sides).filter(pullable);
  // A send without a rank is never free to be pulled.
  const rank: number[] = (sides[0]?.peaks ?? []).map(() => -1);
  order.forEach((send, at) => {
    rank[send] = at;
  });
  const by = (count: number, steps: number) => search(sides, order, rank, count, gainOf(-steps * step));
  let most = Math.floor(MOST_PULL / step);
  for (let count = 1; count <= MOST_SENDS; count += 1) {
    let sends = by(count, most);
    let tooFew = 0;
    while (sends !== null && sends !== "gave up" && most - tooFew > 1) {
      const steps = Math.floor((most + tooFew) / 2);
      const found = by(count, steps);
      if (found === null) tooFew = steps;
      else {
        sends = found;
        most = steps;
      }
    }
    if (sends === "gave up") return null;
    if (sends) return { sends, steps: most };
  }
  return null;
};
