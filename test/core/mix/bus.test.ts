import { describe, expect, it } from "vitest";
import { mixedChannelsOf } from "../../../src/core/mix/bus";
import type { Bus, Channel, Send } from "../../../src/core/model/setup";
import { BUS, channel, kit } from "../recommend/setups";

const on = (id: string): Send => ({ channel: id, on: true, level: 0, tap: "post-fader" as const, pan: null });

const parts = (channels: readonly Channel[], over: Partial<Bus>) =>
  mixedChannelsOf(kit({ channels }), { ...BUS, sends: channels.map((s) => on(s.id)), ...over });

describe("a mono bus", () => {
  const placed = (over: Partial<Channel>) => parts([channel("tom", over)], { stereo: false })[0]?.gains;

  it("takes a channel of one channel at unity, whatever its pan", () => {
    for (const pan of [-1, 0, 0.4]) expect(placed({ pan })).toEqual([[1, 1]]);
  });

  it("takes each channel of a channel of two at unity, whatever its pan", () => {
    for (const pan of [-1, 0, 0.4])
      expect(placed({ lines: 2, pan })).toEqual([
        [1, 1],
        [1, 1],
      ]);
  });
});

it("what is muted, sent at no level, or not there any more does not sound in a bus", () => {
  const channels = [channel("hat"), channel("tom"), channel("kick", { muted: true })];
  const sends = [on("hat"), { ...on("tom"), level: null }, on("kick"), on("gone")];
  expect(parts(channels, { sends }).map((p) => p.channel.id)).toEqual(["hat"]);
});
