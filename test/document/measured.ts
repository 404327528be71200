import type { Measured } from "../../src/core/setup";

/** Figures of one source as a recording has them, where only some of them matter. */
export const measured = (source: string, more: Partial<Measured> = {}): Measured => ({
  source,
  rms: -30,
  playing: -24,
  peak: -9,
  truePeak: -8.5,
  fast: -20,
  slow: -22,
  ...more,
});
