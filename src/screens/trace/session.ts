import { computed } from "@preact/signals";
import { chainOf, traceOn } from "../../core/inputs/trace";
import { current } from "../../document/store";

/** The trace under way, with its chain and how far it has come; null while there is none. */
export const traced = computed(() => {
  const { trace, ...setup } = current.value;
  const listener = setup.listeners.find((l) => l.id === trace?.listener);
  if (!trace || !listener) return null;
  const chain = chainOf(setup, listener, trace.about);
  return { ...trace, listener, chain, ...traceOn(chain ?? [], trace.looks) };
});
