import { computed } from "@preact/signals";
import { busContents } from "../../core/inputs/bus-contents";
import type { SheetRow } from "../../core/inputs/sheet";
import { current } from "../../document/store";
import { formatInside } from "../../text/bus-sheet";
import { patchNow } from "../patch-figures";

/** What can be said of an input: whether it is heard, and the word for it. */
export const SAID = [
  [true, "OK"],
  [false, "No signal"],
] as const;

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
