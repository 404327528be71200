import { computed } from "@preact/signals";
import { checkOf } from "../../core/check/check";
import { decide, progressOf } from "../../core/check/decide";
import type { Action, Hit, Setup } from "../../core/model/setup";
import { current } from "../../document/store";
import { checkNames } from "../../text/check";

/** The listener of the check under way. */
export const checkedListener = computed(() => {
  const { check, listeners } = current.value;
  return check ? listeners.find((l) => l.id === check.listener) : undefined;
});

/** What was hit and said so far. */
export const hits = computed<readonly Hit[]>(() => current.value.check?.hits ?? []);

/** What nobody can do here. */
const declined = computed<readonly Action[]>(() => current.value.check?.declined ?? []);

/** The names that the sentences of the check under way speak of. */
export const names = computed(() => {
  const listener = checkedListener.value;
  return listener ? checkNames(current.value, listener) : null;
});

/** The setup without the check itself: an answer changes nothing of it, so the check is prepared once. */
const asked = computed<readonly Setup[keyof Setup][]>((): readonly Setup[keyof Setup][] => {
  const { kit, desk: console, channels, buses, listeners, monitor } = current.value;
  return [kit, console, channels, buses, listeners, monitor];
});

let prepared: { readonly from: readonly unknown[]; readonly check: ReturnType<typeof checkOf> } | null = null;

/** The check of this listener, prepared anew only when something it reads has changed. */
export const check = computed(() => {
  const listener = checkedListener.value;
  if (!listener) return null;
  const from = [...asked.value, listener];
  if (!prepared || from.some((part, at) => part !== prepared?.from[at])) {
    prepared = { from, check: checkOf(current.value, listener) };
  }
  return prepared.check;
});

/** What is to be said now. */
export const decision = computed(() =>
  check.value ? decide(check.value, hits.value, declined.value) : null,
);

/** How far it has come, 0…1. */
export const progress = computed(() =>
  check.value ? progressOf(check.value, hits.value, declined.value) : 0,
);
