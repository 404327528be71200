import type { Id, PieceKind } from "../core/setup";
import { LIMITS } from "../document/limits";
import { current } from "../document/store";

/** Name of a source, for a sentence or a table. */
export const sourceName = (id: Id): string =>
  current.value.sources.find((s) => s.id === id)?.name || "Unnamed source";

/** Name of a setup. */
export const setupName = ({ name }: { readonly name: string }): string => name || "Unnamed setup";

/** Name of a listener. */
export const listenerName = (id: Id): string =>
  current.value.listeners.find((l) => l.id === id)?.name || "Unnamed listener";

/** Name of a sum. */
export const sumName = (id: Id): string => current.value.sums.find((s) => s.id === id)?.name || "Unnamed sum";

/** Names of the kinds of piece, for lists. */
export const PIECE_KINDS: { readonly [kind in PieceKind]: string } = {
  kick: "Kick",
  snare: "Snare",
  hat: "Hat",
  tom: "Tom",
  floor: "Floor tom",
  ride: "Ride",
  crash: "Crash",
  percussion: "Percussion",
  overhead: "Overhead",
  other: "Other",
};

/** Why no more of something is taken. */
export const full = (what: "sources" | "pieces" | "sums" | "listeners" | "slots"): string =>
  `A setup holds up to ${LIMITS[what]} ${what}`;
