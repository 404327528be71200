import { BLANK_SUM } from "../blanksum";
import { nextId, uniqueName } from "../naming";
import type { Feed, Id, Send, Setup, Slot, Sum } from "../setup";
import { withSum } from "../withsum";
import { APART } from "./costs";
import type { Move } from "./move";
import { withinCount } from "./place";

type Slots = readonly (Slot | null)[];

const without = (slots: Slots, indexes: readonly number[]): (Slot | null)[] =>
  slots.map((slot, i) => (indexes.includes(i) ? null : slot));

const withSlots = (setup: Setup, slots: Slots): Setup => ({
  ...setup,
  monitor: { ...setup.monitor, slots },
});

/** A send as loud as the source comes in by these slots: at the trim of the first that is on; off where none is. */
const sendOf = (setup: Setup, source: Id, slots: readonly number[]): Send => {
  const mine = slots
    .map((i) => setup.monitor.slots[i])
    .filter((s) => s?.feed.kind === "source" && s.feed.source === source);
  const slot = mine.find((s) => s?.on);
  return { source, level: slot ? slot.trim : null, pan: null };
};

const fold = (setup: Setup, move: Move & { move: "fold" }): Setup => {
  const slot = setup.monitor.slots[move.keeps] as Slot;
  const feed: Feed =
    slot.feed.kind === "leg" ? { ...slot.feed, leg: "left" } : { ...slot.feed, channel: "both" };
  const slots = without(setup.monitor.slots, move.slots);
  slots[move.keeps] = { ...slot, feed };
  const fed = withSlots(setup, slots);
  return move.of === "sum"
    ? withSum(fed, move.id, (s) => ({ ...s, stereo: false, reversed: false, folded: false }))
    : fed;
};

const into = (setup: Setup, move: Move & { move: "into" }): Setup => {
  const send = sendOf(setup, move.source, move.slots);
  return withSum(withSlots(setup, without(setup.monitor.slots, move.slots)), move.sum, (s) => ({
    ...s,
    sends: [...s.sends.filter((o) => o.source !== move.source), send],
  }));
};

/** What a new sum of these sources is called. */
export const groupName = (setup: Setup, sources: readonly Id[]): string => {
  const first = setup.sources.find((s) => sources.includes(s.id));
  const stem = (first && APART[first.kind].family) ?? "Sum";
  return uniqueName(stem, setup.sums);
};

const together = (setup: Setup, move: Move & { move: "together" }): Setup => {
  const sum: Sum = {
    ...BLANK_SUM,
    id: nextId("m", setup.sums),
    name: groupName(setup, move.sources),
    stereo: false,
    sends: move.sources.map((source) => sendOf(setup, source, move.slots)),
  };
  const slots = without(setup.monitor.slots, move.slots);
  slots[Math.min(...move.slots)] = { feed: { kind: "leg", sum: sum.id, leg: "left" }, on: true, trim: 0 };
  return { ...withSlots(setup, slots), sums: [...setup.sums, sum] };
};

/** A setup after one move; the slots it frees stay where they are. */
export const applyMove = (setup: Setup, move: Move): Setup => {
  if (move.move === "fold") return fold(setup, move);
  if (move.move === "into") return into(setup, move);
  if (move.move === "together") return together(setup, move);
  return withSlots(setup, without(setup.monitor.slots, move.slots));
};

/** A setup after all the moves, what lay beyond the count moved into what they freed. */
export const applyMoves = (setup: Setup, moves: readonly Move[]): Setup => {
  const moved = moves.reduce(applyMove, setup);
  return withSlots(moved, withinCount(moved));
};
