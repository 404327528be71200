import { channelsOf, legsOf } from "../../core/legs";
import { TAP_ADVICE } from "../../core/patch/taps";
import { firstFree } from "../../core/patch/usage";
import type { Feed, Id, Slot } from "../../core/setup";
import { amend } from "../amend";
import { type Command, step } from "../command";
import { LIMITS } from "../limits";
import type { SetupFile } from "../schema";

/** A slot as it begins: on, untouched. */
export const freshSlot = (feed: Feed): Slot => ({ feed, on: true, trim: 0 });

/** Feeds side by side into the first free slots; where there is no room they go beyond the count, and are shown there. */
const placed = (file: SetupFile, feeds: readonly Feed[]): SetupFile => {
  const { monitor } = file;
  const end = Math.max(monitor.slotCount, monitor.slots.length);
  const at = firstFree(monitor, feeds.length)?.[0] ?? end;
  const length = Math.max(monitor.slots.length, at + feeds.length);
  if (length > LIMITS.slots) return file;
  const slots = Array.from({ length }, (_, i) => {
    const feed = feeds[i - at];
    return feed ? freshSlot(feed) : (monitor.slots[i] ?? null);
  });
  return amend(file, { monitor: amend(monitor, { slots }) });
};

/** A direct feed of a source, taken where it fits such a source; a two-channel source takes two neighbours. */
export const placeSource = (id: Id): Command =>
  step("place source", (file) => {
    const source = file.sources.find((s) => s.id === id);
    if (!source) return file;
    const tap = TAP_ADVICE[source.kind].better;
    return placed(
      file,
      channelsOf(source).map((channel) => ({ kind: "source", source: id, channel, tap })),
    );
  });

/** The legs of a sum into neighbouring slots, in the order in which they are meant. */
export const placeSum = (id: Id): Command =>
  step("place sum", (file) => {
    const sum = file.sums.find((s) => s.id === id);
    if (!sum) return file;
    const legs = legsOf(sum).map((leg): Feed => ({ kind: "leg", sum: id, leg }));
    return placed(file, sum.reversed ? legs.reverse() : legs);
  });
