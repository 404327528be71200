import { busOf } from "../mix/ear-gains";
import type { Listener, Setup } from "../model/setup";
import { busName, listenerName } from "../names";
import { capitalised } from "../words";
import { ANSWER_MODEL, answerShares, withSlips } from "./answers";
import { type Fault, faultsOf } from "./faults";
import { type Strike, strikesOf } from "./strikes";
import type { EarImage } from "./wiring";

/** Faults that the five answers cannot tell apart: reported together. */
export interface FaultSet {
  /** The likeliest first. */
  readonly faults: readonly Fault[];
  /** Chance before the first hit; those of all sets sum to 1. */
  readonly prior: number;
  /** Chance of each answer for each strike, slips included: strike by strike in the order of `ANSWERS`. */
  readonly chances: readonly (readonly number[])[];
}

/** All that a check needs of a setup and a listener; made once, then asked with growing lists of hits. */
export interface Check {
  readonly strikes: readonly Strike[];
  readonly sets: readonly FaultSet[];
  /** Why nothing can be checked; null when it can. */
  readonly obstacle: string | null;
}

/**
 * Two faults are told apart only if for some strike at least this share of the answers differs.
 * Tuned by simulation: below it a dozen hits would not be enough.
 */
const TOLD_APART = 0.5;

type Chances = FaultSet["chances"];

const differs = (a: readonly number[], b: readonly number[]): boolean => {
  // Most faults of one channel leave most strikes as planned: the very same row.
  if (a === b) return false;
  let apart = 0;
  for (let at = 0; at < a.length; at++) apart += Math.abs((a[at] as number) - (b[at] as number));
  return apart / 2 >= TOLD_APART;
};

const alike = (a: Chances, b: Chances): boolean => !a.some((chances, at) => differs(chances, b[at] ?? []));

/** Chances of each fault's answers; what sounds as planned shares the planned rows. */
const chancesOf = (faults: readonly Fault[], planned: Fault): Chances[] => {
  const row = (image: EarImage, asPlanned: EarImage) =>
    withSlips(answerShares(image, asPlanned), ANSWER_MODEL.slip.share);
  const plannedRows = planned.images.map((image) => row(image, image));
  return faults.map(({ images }) =>
    images.map((image, at) => {
      const asPlanned = planned.images[at] ?? image;
      return image === asPlanned ? (plannedRows[at] ?? []) : row(image, asPlanned);
    }),
  );
};

/** Mean chances of a set's faults by their weights. */
const mean = (members: readonly { readonly fault: Fault; readonly chances: Chances }[]): Chances => {
  const [first] = members;
  if (!first || members.length === 1) return first?.chances ?? [];
  const total = members.reduce((sum, m) => sum + m.fault.weight, 0);
  return first.chances.map((row, strike) =>
    row.map((_, at) =>
      members.reduce((sum, m) => sum + ((m.chances[strike]?.[at] ?? 0) * m.fault.weight) / total, 0),
    ),
  );
};

/** Puts faults together that the answers cannot tell apart, each with the likeliest it resembles. */
const merge = (faults: readonly Fault[]): FaultSet[] => {
  const [planned] = faults;
  if (!planned) return [];
  const chances = chancesOf(faults, planned);
  const byWeight = faults
    .map((fault, at) => ({ fault, chances: chances[at] ?? [] }))
    .sort((a, b) => b.fault.weight - a.fault.weight);
  const groups: (typeof byWeight)[] = [];
  for (const each of byWeight) {
    const group = groups.find(([first]) => first && alike(first.chances, each.chances));
    if (group) group.push(each);
    else groups.push([each]);
  }
  const total = faults.reduce((sum, f) => sum + f.weight, 0);
  return groups.map((group) => ({
    faults: group.map((m) => m.fault),
    prior: group.reduce((sum, m) => sum + m.fault.weight, 0) / total,
    chances: mean(group),
  }));
};

const impossible = (obstacle: string): Check => ({ strikes: [], sets: [], obstacle });

/** Prepares a check of what a listener hears: what can be hit, what can be wrong, how each would be answered. */
export const checkOf = (setup: Setup, listener: Listener): Check => {
  if (listener.kind === "audience") return impossible("The audience hears FOH, not a bus.");
  const bus = busOf(setup, listener);
  if (!bus)
    return impossible(`${capitalised(listenerName(listener))} hears no bus. ${"Choose the bus they hear."}`);
  const strikes = strikesOf(setup, bus);
  if (strikes.length === 0) return impossible(`No piece of the kit sounds in ${busName(bus)}.`);
  return { strikes, sets: merge(faultsOf(setup, listener, bus, strikes)), obstacle: null };
};
