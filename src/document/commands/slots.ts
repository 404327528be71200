import { arePair } from "../../core/patch/place";
import type { Feed, Id, Slot } from "../../core/setup";
import { amend, mapped } from "../amend";
import { type Command, step } from "../command";
import { LIMITS, RANGES } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";
import { withoutStaleTicks } from "../ticks";

type Slots = readonly (Slot | null)[];

const withSlots = (file: SetupFile, slots: Slots): SetupFile =>
  mend(withoutStaleTicks(file, amend(file, { monitor: amend(file.monitor, { slots }) })));

/** Puts something into a slot, by index from 0; null frees it. Nothing happens beyond `LIMITS.slots`. */
export const setSlot = (index: number, slot: Slot | null): Command =>
  step(slot ? "fill slot" : "free slot", (file) => {
    if (!Number.isInteger(index) || index < 0 || index >= LIMITS.slots) return file;
    const { slots } = file.monitor;
    if ((slots[index] ?? null) === slot) return file;
    const length = Math.max(slots.length, index + 1);
    return withSlots(
      file,
      Array.from({ length }, (_, at) => (at === index ? slot : (slots[at] ?? null))),
    );
  });

/** Changes the switch, trim or feed of a slot that is not free. */
export const editSlot = (index: number, patch: Partial<Slot>): Command =>
  step("change slot", (file) =>
    withSlots(
      file,
      mapped(file.monitor.slots, (slot, at) => (slot && at === index ? amend(slot, patch) : slot)),
    ),
  );

/** Slots with one moved; what lies between moves up, and no pair of neighbours is torn apart. */
const moved = (slots: Slots, from: number, to: number): Slots => {
  const start = arePair(slots[from - 1], slots[from]) ? from - 1 : from;
  const size = start < from || arePair(slots[from], slots[from + 1]) ? 2 : 1;
  const rest = [...slots.slice(0, start), ...slots.slice(start + size)];
  const wanted = Math.max(0, Math.min(rest.length, start + to - from));
  const splits = arePair(rest[wanted - 1], rest[wanted]);
  const target = splits ? wanted + Math.sign(to - from) : wanted;
  const next = [...rest.slice(0, target), ...slots.slice(start, start + size), ...rest.slice(target)];
  return mapped(slots, (_, at) => next[at] ?? null);
};

/**
 * Moves a slot in the order, by indexes from 0; the slots between move up by as much.
 * The two legs of a sum or the two channels of a source that are neighbours move together.
 */
export const moveSlot = (from: number, to: number): Command =>
  step("move slot", (file) => {
    const { slots } = file.monitor;
    return slots[from] === undefined || !Number.isInteger(to)
      ? file
      : withSlots(file, moved(slots, from, to));
  });

const OTHER = { left: "right", right: "left", both: "both" } as const;

type Direct = Slot & { readonly feed: Extract<Feed, { readonly kind: "source" }> };

const isOf = (slot: Slot | null, source: Id): slot is Direct =>
  slot?.feed.kind === "source" && slot.feed.source === source;

/** The channels of a source change slots; each slot keeps its trim and switch. Nothing happens where only one has a slot. */
export const swapChannels = (source: Id): Command =>
  step("swap channels", (file) => {
    const { slots } = file.monitor;
    const channels = slots.map((slot) => (isOf(slot, source) ? slot.feed.channel : null));
    if (!channels.includes("left") || !channels.includes("right")) return file;
    const swapped = slots.map((slot) =>
      isOf(slot, source) ? { ...slot, feed: { ...slot.feed, channel: OTHER[slot.feed.channel] } } : slot,
    );
    return withSlots(file, swapped);
  });

/** How many inputs the monitor system has; what is in slots over that stays there and is shown as over. Outside `RANGES.slotCount` nothing happens. */
export const setSlotCount = (slotCount: number): Command =>
  step("change number of slots", (file) =>
    Number.isInteger(slotCount) && slotCount >= RANGES.slotCount.min && slotCount <= RANGES.slotCount.max
      ? mend(amend(file, { monitor: amend(file.monitor, { slotCount }) }))
      : file,
  );
