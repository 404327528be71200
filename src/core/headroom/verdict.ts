import type { Bus } from "../model/setup";
import type { Db, Side } from "../model/units";
import type { Stage } from "./ceilings";
import type { BusFigures } from "./figures";

/** How a bus stands against the ceiling that limits it, by the likely peak. */
export type FitCode =
  | "no sends"
  /** Every send is off or of a muted channel. */
  | "silent"
  /** Channels sound, and no peak of them is entered. */
  | "no peaks"
  | "over"
  | "under target"
  | "fits";

/** Whether a bus fits under its ceilings. */
export interface FitVerdict {
  readonly code: FitCode;
  /** The limiting stage, and the side that comes closest to it. */
  readonly stage: Stage;
  readonly side: Side;
  /** Headroom there, dB; negative where it is over, +∞ where nothing sounds. */
  readonly headroom: Db;
  /** How far that is under the target, dB; 0 where it is not. */
  readonly short: Db;
  /** Channels that sound without an entered peak, of all that sound: the headroom is that of the others. */
  readonly missing: number;
  readonly sounding: number;
  /** Where the loudest playable peak is over though the likely peak is not, and by how much, dB. */
  readonly hardFill: { readonly stage: Stage; readonly over: Db } | null;
}

/**
 * Whether a bus fits: by the likely peak, and by the loudest that can be played.
 * @param target wanted headroom, dB
 */
export const fitVerdict = (
  { lowest, hardFill, sides, unknown }: Pick<BusFigures, "lowest" | "hardFill" | "sides" | "unknown">,
  bus: Pick<Bus, "sends">,
  target: Db,
): FitVerdict => {
  // What is known may be silent while a channel without a peak sounds.
  const silent = unknown.peak.length > 0 ? "no peaks" : "silent";
  const CODES = {
    over: "over",
    "under target": "under target",
    fine: "fits",
    silent: bus.sends.length === 0 ? "no sends" : silent,
    unknown: "no peaks",
  } as const;
  const clips = hardFill.state === "over" && lowest.state !== "over";
  return {
    code: CODES[lowest.state],
    stage: lowest.place,
    side: lowest.side,
    headroom: lowest.headroom,
    short: lowest.state === "over" || lowest.state === "under target" ? target - lowest.headroom : 0,
    missing: unknown.peak.length,
    sounding: sides[0].contributions.length,
    hardFill: clips ? { stage: hardFill.place, over: -hardFill.headroom } : null,
  };
};
