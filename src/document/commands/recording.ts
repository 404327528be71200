import { convertRms } from "../../core/level/analog";
import type { Channel, Desk, MeasuredChannel, Recording } from "../../core/model/setup";
import type { Db } from "../../core/model/units";
import { amend, mapped } from "../amend";
import { type Command, step } from "../command";
import { RANGES } from "../limits";
import { mend } from "../mend";

/** Figures are copied to a tenth of a dB, as they are read; the peak upwards, so that it is never under the truth. */
const TENTHS = 10;
/** Nobody minds a thousandth. */
const SLACK: Db = 1e-3;

const allowed = (level: Db): boolean => level >= RANGES.level.min && level <= RANGES.level.max;

/** What so many tenths are; 0 has no sign, as in a file. */
const tenths = (count: number): Db => count / TENTHS || 0;

/** A channel with its measured level and peak; what is silent or out of range stays as it was. */
const withFigures = (console: Desk, channel: Channel, measured: MeasuredChannel | undefined): Channel => {
  if (!measured) return channel;
  const level = tenths(Math.round(convertRms(measured.gatedRms, "sample", console.rms) * TENTHS));
  const peak = tenths(Math.ceil((measured.peak - SLACK) * TENTHS));
  return amend(channel, {
    ...(allowed(level) ? { gatedRms: level } : {}),
    ...(allowed(peak) ? { peak } : {}),
  });
};

/**
 * Keeps the figures of a recording, without its audio.
 * @param copy also takes the level while playing, in the console's rms convention, and the peak into the channels
 */
export const keepRecording = (recording: Recording, copy: boolean): Command =>
  step("keep measured figures", (file) => {
    const of = new Map(recording.channels.map((m) => [m.channel, m]));
    const channels = copy
      ? mapped(file.channels, (s) => withFigures(file.desk, s, of.get(s.id)))
      : file.channels;
    return mend(amend(file, { recording, channels }));
  });

/** Forgets the measured figures; what was copied into the channels stays. */
export const forgetRecording = (): Command =>
  step("remove measured figures", (file) => amend(file, { recording: null }));
