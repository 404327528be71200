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
  /**
   * What the loudest playable peak leaves at its limiting stage, dB, negative where it clips. Null where the likely peak
   * is over already, where nothing known sounds, and where nothing is struck and all peaks aligned do not clip.
   */
  readonly hardFill: { readonly stage: Stage; readonly headroom: Db; readonly isPlayed: boolean } | null;
}

/** What of the figures of a bus tells whether it fits. */
export type FitFigures = Pick<BusFigures, "lowest" | "hardFill" | "hasDrums" | "sides" | "unknown">;

/**
 * Whether a bus fits: by the likely peak, and by the loudest that can be played.
 * @param target wanted headroom, dB
 */
export const fitVerdict = (
  { lowest, hardFill, hasDrums, sides, unknown }: FitFigures,
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
  const fits = lowest.state === "fine" || lowest.state === "under target";
  return {
    code: CODES[lowest.state],
    stage: lowest.place,
    side: lowest.side,
    headroom: lowest.headroom,
    short: lowest.state === "over" || lowest.state === "under target" ? target - lowest.headroom : 0,
    missing: unknown.peak.length,
    sounding: sides[0].contributions.length,
    hardFill:
      fits && (hasDrums || hardFill.state === "over")
        ? {
            stage: hardFill.place,
            headroom: hardFill.state === "over" ? hardFill.headroom : Math.max(0, hardFill.headroom),
            isPlayed: hasDrums,
          }
        : null,
  };
};
