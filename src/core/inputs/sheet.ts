import { isInputOn } from "../mix/taps";
import type { Feed, Setup } from "../model/setup";
import type { Db } from "../model/units";
import { capitalised } from "../words";
import { type PatchedThing, patchedThings, sideOf, sidesSwapped } from "./patched";
import { TAP_NAMES } from "./taps";

/** One line of the patch sheet: what screen, print and CSV show of an input. */
export interface SheetRow {
  /** Number as it stands on the mixer, from 1. */
  readonly input: number;
  /** Beyond the inputs there are. */
  readonly over: boolean;
  /** What is written over the knob; "" for a free input. */
  readonly name: string;
  /** Which part of it: "left side", "direct"; "" for a free input. */
  readonly part: string;
  /** Where it comes from: "Drums, left side"; "" for a free input. */
  readonly from: string;
  /** Where in the channel it is taken; "" for a side, which has no channel, and for a free input. */
  readonly tap: string;
  /** Null for a free input. */
  readonly on: boolean | null;
  /** Null for a free input. */
  readonly trim: Db | null;
  /** Belongs to a pair that lies in reverse order: as it is meant, or by mistake; "" otherwise. */
  readonly swapped: "" | "on purpose" | "by mistake";
}

const LETTER = { left: " L", right: " R", both: "" } as const;

/**
 * Which part of its source or sum a feed is, in words: "left side", "direct".
 * @param stereo the channel has two channels, or the bus is a pair
 */
export const partOf = (feed: Feed, stereo: boolean): string => {
  const ofBus = feed.kind === "bus";
  if (!stereo) return ofBus ? "mono bus" : "direct";
  const side = sideOf({ feed });
  return side === "both" ? "both channels to mono" : `${side} ${ofBus ? "side" : "channel"}`;
};

const swappedOf = (setup: Setup, thing: PatchedThing): SheetRow["swapped"] => {
  if (!thing.stereo || !sidesSwapped(setup, thing)) return "";
  return thing.swapped ? "on purpose" : "by mistake";
};

/** The patch sheet: every input there is, free ones too, and what lies beyond. */
export const sheetRows = (setup: Setup): SheetRow[] => {
  const { inputs, inputCount } = setup.monitor;
  const things = new Map(patchedThings(setup).flatMap((t) => t.inputs.map((i) => [i, t])));
  const length = Math.max(inputCount, ...[...things.keys()].map((i) => i + 1));
  return Array.from({ length }, (_, index): SheetRow => {
    const line = { input: index + 1, over: index >= inputCount };
    const input = inputs[index];
    const thing = things.get(index);
    if (!input || !thing)
      return { ...line, name: "", part: "", from: "", tap: "", on: null, trim: null, swapped: "" };
    const part = partOf(input.feed, thing.stereo);
    const { feed } = input;
    const channel = feed.kind === "channel" ? setup.channels.find((c) => c.id === feed.channel) : undefined;
    return {
      ...line,
      name: `${thing.name}${thing.stereo ? LETTER[sideOf(input)] : ""}`,
      part,
      from: `${thing.name}, ${part}`,
      tap: channel ? capitalised(TAP_NAMES[channel.directOut.tap]) : "",
      on: isInputOn(setup, input),
      trim: input.trim,
      swapped: swappedOf(setup, thing),
    };
  });
};
