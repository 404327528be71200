import type { MeasuredChannel } from "../../src/core/model/setup";

/** Figures of one channel as a recording has them, where only some of them matter. */
export const measured = (channel: string, more: Partial<MeasuredChannel> = {}): MeasuredChannel => ({
  channel,
  rms: -30,
  gatedRms: -24,
  peak: -9,
  truePeak: -8.5,
  fast: -20,
  slow: -22,
  activity: null,
  ...more,
});
