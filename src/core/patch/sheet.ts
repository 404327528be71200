import type { Feed, Setup } from "../setup";
import type { Db } from "../units";
import { sentence } from "../words";
import { type Patched, patchedThings, sideOf, sidesReversed } from "./sides";
import { TAP_NAMES } from "./taps";

/** One line of the patch sheet: what screen, print and CSV show of a slot. */
export interface SheetRow {
  /** Number as it stands on the mixer, from 1. */
  readonly slot: number;
  /** Beyond the slots there are. */
  readonly over: boolean;
  /** What is written over the knob; "" for a free slot. */
  readonly name: string;
  /** Which part of it: "left leg", "direct"; "" for a free slot. */
  readonly part: string;
  /** Where it comes from: "Drums, left leg"; "" for a free slot. */
  readonly from: string;
  /** Where in the channel it is taken; "" for a leg, which has no channel, and for a free slot. */
  readonly tap: string;
  /** Null for a free slot. */
  readonly on: boolean | null;
  /** Null for a free slot. */
  readonly trim: Db | null;
  /** Belongs to a pair that lies in reverse order: as it is meant, or by mistake; "" otherwise. */
  readonly swapped: "" | "on purpose" | "by mistake";
}

const LETTER = { left: " L", right: " R", both: "" } as const;

/**
 * Which part of its source or sum a feed is, in words: "left leg", "direct".
 * @param stereo the source has two channels, or the sum is a pair
 */
export const partOf = (feed: Feed, stereo: boolean): string => {
  const leg = feed.kind === "leg";
  if (!stereo) return leg ? "mono sum" : "direct";
  const side = sideOf({ feed });
  return side === "both" ? "both channels to mono" : `${side} ${leg ? "leg" : "channel"}`;
};

const swappedOf = (setup: Setup, thing: Patched): SheetRow["swapped"] => {
  if (!thing.stereo || !sidesReversed(setup, thing)) return "";
  return thing.reversed ? "on purpose" : "by mistake";
};

/** The patch sheet: every slot there is, free ones too, and what lies beyond. */
export const sheetRows = (setup: Setup): SheetRow[] => {
  const { slots, slotCount } = setup.monitor;
  const things = new Map(patchedThings(setup).flatMap((t) => t.slots.map((i) => [i, t])));
  const length = Math.max(slotCount, ...[...things.keys()].map((i) => i + 1));
  return Array.from({ length }, (_, index): SheetRow => {
    const line = { slot: index + 1, over: index >= slotCount };
    const slot = slots[index];
    const thing = things.get(index);
    if (!slot || !thing)
      return { ...line, name: "", part: "", from: "", tap: "", on: null, trim: null, swapped: "" };
    const part = partOf(slot.feed, thing.stereo);
    return {
      ...line,
      name: `${thing.name}${thing.stereo ? LETTER[sideOf(slot)] : ""}`,
      part,
      from: `${thing.name}, ${part}`,
      tap: slot.feed.kind === "source" ? sentence(TAP_NAMES[slot.feed.tap]) : "",
      on: slot.on,
      trim: slot.trim,
      swapped: swappedOf(setup, thing),
    };
  });
};
