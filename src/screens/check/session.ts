import { computed, signal } from "@preact/signals";
import { isCheckShort } from "../../core/at-once";
import { type Check, checkOf } from "../../core/check/check";
import { decide, progressOf } from "../../core/check/decide";
import type { Action, Hit } from "../../core/model/setup";
import type { SearchInput } from "../../core/searches";
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

let last: { readonly from: readonly unknown[]; readonly input: SearchInput<"check"> } | null = null;

/** What the check is prepared from: the same object until something it reads has changed. An answer changes nothing of it. */
export const asked = computed<SearchInput<"check"> | null>(() => {
  const listener = checkedListener.value;
  if (!listener) return null;
  const { kit, desk, channels, buses, listeners, monitor } = current.value;
  const from = [kit, desk, channels, buses, listeners, monitor, listener];
  if (!last || from.some((part, at) => part !== last?.from[at]))
    last = { from, input: { setup: current.value, listener } };
  return last.input;
});

const arrived = signal<{ readonly of: object; readonly check: Check } | null>(null);

/** Takes in a check that was prepared elsewhere. */
export const takeCheck = (of: object, check: Check): void => {
  arrived.value = { of, check };
};

let prepared: { readonly of: object; readonly check: Check } | null = null;

/** The check of this listener, prepared anew only when something it reads has changed; null while that is done elsewhere. */
export const check = computed(() => {
  const of = asked.value;
  if (!of) return null;
  if (!isCheckShort(of.setup, of.listener)) return arrived.value?.of === of ? arrived.value.check : null;
  if (prepared?.of !== of) prepared = { of, check: checkOf(of.setup, of.listener) };
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
