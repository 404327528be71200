import { nameOf, sourceCalled, sumCalled } from "../core/called";
import type { Hand, Id } from "../core/setup";
import { LIMITS } from "../document/limits";
import { current } from "../document/store";

/** Name of a source, for a sentence or a table. */
export const sourceName = (id: Id): string => sourceCalled(current.value, id);

/** Name of a setup. */
export const setupName = (setup: { readonly name: string }): string => nameOf(setup, "setup");

/** Name of a listener. */
export const listenerName = (id: Id): string =>
  nameOf(
    current.value.listeners.find((l) => l.id === id),
    "listener",
  );

/** Name of a sum. */
export const sumName = (id: Id): string => sumCalled(current.value.sums.find((s) => s.id === id));

/** Ways to set a kit up, for lists. */
export const HANDS: readonly (readonly [Hand, string])[] = [
  ["right", "Right-handed"],
  ["left", "Left-handed"],
  ["open", "Open-handed"],
];

/** Why no more of something is taken. */
export const full = (what: "sources" | "pieces" | "sums" | "listeners" | "slots"): string =>
  `A setup holds up to ${LIMITS[what]} ${what}`;
