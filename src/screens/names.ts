import type { Id } from "../core/setup";
import { current } from "../document/store";

/** Name of a source, for a sentence or a table. */
export const sourceName = (id: Id): string =>
  current.value.sources.find((s) => s.id === id)?.name || "Unnamed source";

/** Name of a listener. */
export const listenerName = (id: Id): string =>
  current.value.listeners.find((l) => l.id === id)?.name || "Unnamed listener";

/** Name of a sum. */
export const sumName = (id: Id): string => current.value.sums.find((s) => s.id === id)?.name || "Unnamed sum";
