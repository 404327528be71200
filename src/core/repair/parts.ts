import type { Id, Listener, Setup, Sum } from "../setup";

/** What is done with the pans of the sources that need it: nothing, in this sum, or in the house. */
export type Panning = "keep" | "sum" | "house";

/** What is done with the pair itself; everybody who hears it gets it. */
export interface PairState {
  readonly swap: boolean;
  readonly pan: Panning;
  readonly fold: boolean;
}

/** For one listener alone, from the pair everybody hears: nothing, or a flip at their own mixer. */
export const SHARED_CHOICES = ["none", "flip"] as const;
/** A pair of their own: a copy of the sum as it is now, in reverse order, or with what they need panned over. */
export const OWN_CHOICES = ["own reversed", "own panned"] as const;

/** What is done for one listener alone. */
export type Choice = (typeof SHARED_CHOICES | typeof OWN_CHOICES)[number];

/** A listener for whom something is done alone. */
export interface Own {
  readonly listener: Id;
  readonly choice: Exclude<Choice, "none">;
}

/** What a repair consists of. */
export interface Parts {
  readonly pair: PairState;
  readonly own: readonly Own[];
}

/** Nothing is done with the pair. */
export const LEAVE: PairState = { swap: false, pan: "keep", fold: false };

/** Whether a sum brings two different legs, so that there is something to exchange. */
export const hasSides = (sum: Sum): boolean => sum.stereo && !sum.folded;

/**
 * Every state a pair may be brought into, in the order in which equals are preferred: what is done once at the console
 * before what every player would have to do. The house is left out where it may not change; a mono or folded sum
 * has nothing to swap, and only the house can be moved.
 */
export const pairStates = (setup: Setup, sum: Sum): PairState[] => {
  const states: PairState[] = [];
  const sides = hasSides(sum);
  const pans: Panning[] = ["keep", ...(sides ? ["sum" as const] : []), "house"];
  for (const swap of sides ? [true, false] : [false])
    for (const pan of pans)
      if (pan !== "house" || !setup.wishes.houseFixed) states.push({ swap, pan, fold: false });
  if (sides) states.push({ ...LEAVE, fold: true });
  return states;
};

/** Whether a listener hears a sum. */
export const isOnSum = (listener: Listener, sum: Sum): boolean =>
  listener.kind !== "audience" && listener.sum === sum.id;

/** Key of a repair: the same parts have the same. */
export const keyOf = ({ pair, own }: Parts): string => {
  const state = [pair.swap ? "swap" : "", pair.pan === "keep" ? "" : pair.pan, pair.fold ? "fold" : ""];
  const words = [...state.filter(Boolean), ...own.map((o) => `${o.listener}:${o.choice}`)];
  return words.length === 0 ? "leave" : words.join(", ");
};
