import { computed, signal } from "@preact/signals";
import { busContents } from "../../core/inputs/bus-contents";
import type { SheetRow } from "../../core/inputs/sheet";
import { hearsFoh } from "../../core/model/kinds";
import type { Id, Listener } from "../../core/model/setup";
import { type LinePlace, lineKey } from "../../document/line-place";
import { current } from "../../document/store";
import { formatInside } from "../../text/bus-sheet";
import { patchNow } from "../patch-figures";

/** What can be said of an input: whether it is heard, and the word for it. */
export const SAID = [
  [true, "OK"],
  [false, "No signal"],
] as const;

const wantedPlace = signal<Id | null>(null);

/** Everybody with a mixer. */
export const musicians = computed(() => current.value.listeners.filter((l) => !hearsFoh(l)));

/** The musician at whose mixer the lines are checked; null is anywhere. */
export const checkedAt = computed(() => musicians.value.find(({ id }) => id === wantedPlace.value) ?? null);

/** Says where the lines are checked from now on. */
export const checkAt = (listener: Id | null): void => {
  wantedPlace.value = listener;
};

/** Where an input is checked now. */
export const placeNow = ({ input }: SheetRow): LinePlace => ({
  index: input - 1,
  listener: checkedAt.value?.id ?? null,
});

/** What was said of an input where it is checked now. */
export const saidNow = (row: SheetRow): boolean | undefined =>
  current.value.lineCheck[lineKey(placeNow(row))];

/** Musicians at whose mixers an input has no signal. */
export const silentAt = ({ input }: SheetRow): Listener[] =>
  musicians.value.filter(
    ({ id }) => current.value.lineCheck[lineKey({ index: input - 1, listener: id })] === false,
  );

/** Every input that something is patched to. */
export const linesToCheck = computed(() => patchNow.value.rows.filter((r) => r.feed !== null));

const inside = computed(
  () =>
    new Map(
      busContents(current.value).map(({ bus, contents }) => [bus.id, formatInside(contents, current.value)]),
    ),
);

/** What is in the bus that an input takes; "" where it takes none, and for the second side of one. */
export const describeInside = ({ input, feed }: SheetRow): string => {
  const patched = feed?.input.feed;
  if (patched?.kind !== "bus") return "";
  const first = linesToCheck.value.find(
    (row) => row.feed?.input.feed.kind === "bus" && row.feed.input.feed.bus === patched.bus,
  );
  return first?.input === input ? (inside.value.get(patched.bus) ?? "") : "";
};
