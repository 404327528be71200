import { describe, expect, it } from "vitest";
import { recordedAverage } from "../../../src/core/headroom/recorded";
import { fullScaleSine } from "../../../src/core/level/analog";
import { gainsInBus, gainsInto } from "../../../src/core/measure/bus-gains";
import { levelThrough } from "../../../src/core/measure/levels";
import { BLANK_SEND } from "../../../src/core/model/defaults";
import type { Bus, Desk } from "../../../src/core/model/setup";
import { toRecording } from "../../../src/measure/recording";
import { figuresOf } from "../../measure/job";
import { expectNear, TINY } from "../../near";
import { noise } from "../../tools/chance.mjs";
import { channel, onlyBus, setupOf } from "./setups";

const PLACES = ["kick", "snare", "over"].map((id) => ({ channel: id, line: 0 as const }));
const common = noise(5);
const shared = Float64Array.from({ length: 48_000 }, () => 0.1 * common());
const TRACKS = PLACES.map((_, t) => {
  const own = noise(t + 1);
  return shared.map((x) => x + 0.1 * (t + 1) * own());
});
// Levels that nobody measured: the recording is what counts.
const CHANNELS = PLACES.map(({ channel: id }, t) => channel(id, { pan: t - 1, gatedRms: -50 + t }));

const measured = async (bus: Partial<Bus> = {}, desk: Partial<Desk> = {}, channels = CHANNELS) => {
  const figures = await figuresOf(TRACKS);
  const recording = toRecording("take", figures, PLACES);
  const setup = setupOf(channels, { bus, console: desk, recording });
  return { figures, setup, average: recordedAverage(setup, onlyBus(setup)) };
};

describe("average RMS as a recording has it", () => {
  it.each<[string, Partial<Bus>, Partial<Desk>]>([
    ["as it stands", {}, {}],
    [
      "one polarity, another law and side trims",
      { sideInverted: [true, false], sideTrim: [0, -3] },
      { law: "linear" },
    ],
    ["folded", { folded: true }, {}],
  ])("%s: what the samples give through the gains of now", async (_, bus, desk) => {
    const { figures, setup, average } = await measured(bus, desk);
    const gains = gainsInBus(setup, onlyBus(setup), PLACES);
    for (const outlet of ["left", "right", "mono"] as const)
      expectNear(
        average?.[outlet] ?? null,
        levelThrough(figures, gainsInto(outlet, gains)).rms,
        TINY,
        outlet,
      );
  });

  it("is in the desk's rms convention; a mono bus has one side", async () => {
    const sample = await measured();
    const { average } = await measured({}, { rms: "aes17" });
    expectNear(average?.left ?? null, (sample.average?.left ?? 0) - fullScaleSine("sample"), TINY);
    const mono = (await measured({ stereo: false })).average;
    expect([mono?.right, mono?.mono]).toEqual([mono?.left, mono?.left]);
  });

  it("of one channel alone it is that channel's", async () => {
    const sends = [{ ...BLANK_SEND, channel: "snare", level: -6 }];
    const { figures, average } = await measured({ stereo: false, sends });
    expectNear(average?.mono ?? null, (figures.tracks[1]?.rms ?? 0) - 6, TINY);
  });

  it("is not known without a recording, of what is not in it, and of stereo channels", async () => {
    const { setup } = await measured();
    expect(recordedAverage({ ...setup, recording: null }, onlyBus(setup))).toBeNull();
    expect((await measured({}, {}, [...CHANNELS, channel("hat")])).average).toBeNull();
    expect((await measured({}, {}, [...CHANNELS, channel("hat", { muted: true })])).average).not.toBeNull();
    const [kick, ...rest] = CHANNELS;
    if (!kick) throw new Error("no channel");
    expect((await measured({}, {}, [{ ...kick, lines: 2 }, ...rest])).average).toBeNull();
  });
});
