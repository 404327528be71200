import type { Hand, Id } from "../core/model/setup";
import { LIMITS } from "../document/limits";
import { current } from "../document/store";
import { busName, channelName, nameOr } from "../text/names";

/** Name of a channel, for a sentence or a table. */
export const channelTitle = (id: Id): string => channelName(current.value, id);

/** Name of a setup. */
export const setupName = (setup: { readonly name: string }): string => nameOr(setup, "setup");

/** Name of a desk. */
export const deskTitle = (desk: { readonly name: string }): string => nameOr(desk, "desk");

/** Name of a listener. */
export const listenerTitle = (id: Id): string =>
  nameOr(
    current.value.listeners.find((l) => l.id === id),
    "listener",
  );

/** Name of a bus. */
export const busTitle = (id: Id): string => busName(current.value.buses.find((s) => s.id === id));

/** Ways to set a kit up, for lists. */
export const HANDS: readonly (readonly [Hand, string])[] = [
  ["right", "Right-handed"],
  ["left", "Left-handed"],
  ["open", "Open-handed"],
];

/** Why no more of something is taken. */
export const full = (what: "channels" | "pieces" | "buses" | "listeners" | "inputs"): string =>
  `A setup holds up to ${LIMITS[what]} ${what}`;
