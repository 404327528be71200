import { describe, expect, it } from "vitest";
import type { MeasuredChannel, Recording } from "../../src/core/model/setup";
import { forgetRecording, keepRecording } from "../../src/document/commands/recording";
import { readSetup } from "../../src/document/read-setup";
import { bandSetup } from "./band";

const measured = (channel: string, gatedRms: number, peak: number): MeasuredChannel => ({
  channel,
  rms: gatedRms - 3,
  gatedRms: gatedRms,
  peak,
  truePeak: peak + 0.4,
  fast: gatedRms + 2,
  slow: gatedRms,
  activity: null,
});

const recording: Recording = {
  name: "Rehearsal",
  seconds: 90,
  channels: [
    measured("s1", -23.456, -8.46),
    measured("s2", Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY),
    measured("s3", -30, -12.0001),
    measured("s4", 40, 31),
  ],
  correlation: [
    [1, 0, 0.2, 0],
    [0, 1, 0, 0],
    [0.2, 0, 1, 0],
    [0, 0, 0, 1],
  ],
};
const example = bandSetup();
const find = (setup: typeof example, id: string) => setup.channels.find((s) => s.id === id);

describe("figures of a recording", () => {
  it("are kept without touching the channels", () => {
    const kept = keepRecording(recording, false).apply(example);
    expect(kept.recording).toEqual(recording);
    expect(kept.channels).toBe(example.channels);
  });

  it("are copied to a tenth of a dB, the peak upwards; silence and what no field takes stay out", () => {
    const kept = keepRecording(recording, true).apply(example);
    expect(find(kept, "s1")).toMatchObject({ gatedRms: -23.5, peak: -8.4 });
    expect(find(kept, "s3")).toMatchObject({ gatedRms: -30, peak: -12 });
    for (const id of ["s2", "s4", "s5"]) expect(find(kept, id)).toBe(find(example, id));
    const again = keepRecording(recording, true).apply(kept);
    expect(again.channels).toBe(kept.channels);
  });

  it("are copied up to the ends of what a field takes, and no further", () => {
    const copied = (gatedRms: number, peak: number) => {
      const of = { ...recording, channels: [measured("s1", gatedRms, peak)], correlation: [[1]] };
      const { gatedRms: level, peak: top } = find(keepRecording(of, true).apply(example), "s1") ?? {};
      return [level, top];
    };
    const { gatedRms: level, peak } = find(example, "s1") ?? {};
    expect(copied(-120, -120)).toEqual([-120, -120]);
    expect(copied(24, 24)).toEqual([24, 24]);
    expect(copied(-120.1, -120.1)).toEqual([level, peak]);
    expect(copied(24.1, 24.1)).toEqual([level, peak]);
  });

  it("a level is copied in the console's convention, a peak as it is", () => {
    const aes17 = { ...example, desk: { ...example.desk, rms: "aes17" as const } };
    // A full-scale sine reads −3.01 dBFS by samples and 0 by AES17: −23.456 becomes −20.446.
    expect(find(keepRecording(recording, true).apply(aes17), "s1")).toMatchObject({
      gatedRms: -20.4,
      peak: -8.4,
    });
  });

  it("come back from a file as they were, silence too", () => {
    const kept = keepRecording(recording, true).apply(example);
    const read = readSetup(JSON.parse(JSON.stringify(kept)));
    expect(read.ok && read.file).toEqual(kept);
    expect(read.ok && read.notes).toEqual([]);
  });

  it("are forgotten; what was copied stays", () => {
    const kept = keepRecording(recording, true).apply(example);
    const after = forgetRecording().apply(kept);
    expect(after.recording).toBeNull();
    expect(after.channels).toBe(kept.channels);
    expect(forgetRecording().apply(example)).toBe(example);
  });
});
