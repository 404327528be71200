import type { Bus, Id, Listener, Setup } from "../model/setup";

/** What is done with the pans of the channels that need it: nothing, in this bus, or at FOH. */
export type Panning = "keep" | "bus" | "foh";

/** What is done with the pair itself; everybody who hears it gets it. */
export interface PairState {
  readonly swap: boolean;
  readonly pan: Panning;
  readonly fold: boolean;
}

/** For one listener alone, from the pair everybody hears: nothing, or a flip at their own mixer. */
export const SHARED_CHOICES = ["none", "flip"] as const;
/** A pair of their own: a copy of the bus as it is now, in reverse order, or with what they need panned over. */
export const OWN_CHOICES = ["own reversed", "own panned"] as const;

/** What is done for one listener alone. */
export type Choice = (typeof SHARED_CHOICES | typeof OWN_CHOICES)[number];

/** A listener for whom something is done alone. */
export interface Own {
  readonly listener: Id;
  readonly choice: Exclude<Choice, "none">;
}

/** What a recommendation consists of. */
export interface Parts {
  readonly pair: PairState;
  readonly own: readonly Own[];
}

/** Nothing is done with the pair. */
export const LEAVE: PairState = { swap: false, pan: "keep", fold: false };

/** Whether a bus brings two different sides, so that there is something to exchange. */
export const hasSides = (bus: Bus): boolean => bus.stereo && !bus.folded;

/**
 * Every state a pair may be brought into, in the order in which equals are preferred: what is done once at the console
 * before what every player would have to do. FOH is left out where it may not change; a mono or folded sum
 * has nothing to swap, and only FOH can be moved.
 */
export const pairStates = (setup: Setup, bus: Bus): PairState[] => {
  const states: PairState[] = [];
  const sides = hasSides(bus);
  const pans: Panning[] = ["keep", ...(sides ? ["bus" as const] : []), "foh"];
  for (const swap of sides ? [true, false] : [false])
    for (const pan of pans)
      if (pan !== "foh" || !setup.preferences.fohFixed) states.push({ swap, pan, fold: false });
  if (sides) states.push({ ...LEAVE, fold: true });
  return states;
};

/** Whether a listener hears a bus. */
export const isOnBus = (listener: Listener, bus: Bus): boolean =>
  listener.kind !== "audience" && listener.bus === bus.id;

/** Key of a recommendation: the same parts have the same. */
export const keyOf = ({ pair, own }: Parts): string => {
  const state = [pair.swap ? "swap" : "", pair.pan === "keep" ? "" : pair.pan, pair.fold ? "fold" : ""];
  const words = [...state.filter(Boolean), ...own.map((o) => `${o.listener}:${o.choice}`)];
  return words.length === 0 ? "leave" : words.join(", ");
};
