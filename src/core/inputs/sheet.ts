import { isInputOn } from "../mix/taps";
import type { DirectOut, Feed, MonitorInput, Setup } from "../model/setup";
import type { Side } from "../model/units";
import { type PatchedThing, patchedThings, sidesSwapped } from "./patched";

/** What takes an input, as the patch sheet shows it. */
export interface SheetFeed {
  readonly input: MonitorInput;
  /** Switched on, at the monitor system and at the direct out that feeds it. */
  readonly on: boolean;
  /** Where a channel’s direct out is taken and its trim, dB; null for a bus. */
  readonly directOut: DirectOut | null;
  /** Numbers at the desk of the channel or bus side that feeds it; none where not entered. */
  readonly numbers: readonly number[];
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

/** Number of one side where both are entered; else all that is entered. */
const numbersOf = (numbers: readonly number[], side: Side | "both"): readonly number[] =>
  numbers.length === 2 && side !== "both" ? numbers.slice(side === "left" ? 0 : 1).slice(0, 1) : numbers;

const sourceOf = (setup: Setup, feed: Feed): Pick<SheetFeed, "directOut" | "numbers"> => {
  if (feed.kind === "bus") {
    const bus = setup.buses.find((b) => b.id === feed.bus);
    return { directOut: null, numbers: numbersOf(bus?.numbers ?? [], feed.side) };
  }
  const channel = setup.channels.find((c) => c.id === feed.channel);
  return { directOut: channel?.directOut ?? null, numbers: numbersOf(channel?.numbers ?? [], feed.side) };
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
    return {
      ...line,
      feed: {
        input,
        on: isInputOn(setup, input),
        ...sourceOf(setup, input.feed),
        stereo: thing.stereo,
        swapped: swappedOf(setup, thing),
      },
    };
  });
};
