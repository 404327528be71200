import type { MonitorInput, Setup } from "../model/setup";
import { type PatchedThing, patchedThings, sidesSwapped } from "./patched";

/** What takes an input, as the patch sheet shows it. */
export interface SheetFeed {
  readonly input: MonitorInput;
  /** A stereo channel, or a stereo bus. */
  readonly stereo: boolean;
  /** Belongs to a pair that lies swapped: as it is meant, or by mistake. */
  readonly swapped: "no" | "on purpose" | "by mistake";
}

/** One line of the patch sheet: what screen, print and CSV show of an input. */
export interface SheetRow {
  /** Number as it stands on the mixer, from 1. */
  readonly input: number;
  /** Beyond the inputs there are. */
  readonly over: boolean;
  /** Null for a free input. */
  readonly feed: SheetFeed | null;
}

const swappedOf = (setup: Setup, thing: PatchedThing): SheetFeed["swapped"] => {
  if (!thing.stereo || !sidesSwapped(setup, thing)) return "no";
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
    if (!input || !thing) return { ...line, feed: null };
    return { ...line, feed: { input, stereo: thing.stereo, swapped: swappedOf(setup, thing) } };
  });
};
