import { expect, it } from "vitest";
import { BLANK_CHANNEL, BLANK_SEND } from "../../src/core/model/defaults";
import type { ChannelKind } from "../../src/core/model/setup";
import { addChannels } from "../../src/document/commands/channels";
import { LIMITS } from "../../src/document/limits";
import { bandSetup } from "./band";
import { applied } from "./commands";

const band = bandSetup();
const fresh = (name: string, kind: ChannelKind) => ({ ...BLANK_CHANNEL, name, kind });
const FOUR = [
  fresh("Tom 9", "drum"),
  fresh("Bass", "bass"),
  fresh("Bass", "bass"),
  fresh("Shaker", "percussion"),
];

it("several channels are added as one step, each with an id and a name of its own", () => {
  const { channels } = applied(band, addChannels(FOUR, null));
  expect(channels.slice(0, band.channels.length)).toEqual(band.channels);
  const added = channels.slice(band.channels.length);
  expect(added.map((c) => c.kind)).toEqual(["drum", "bass", "bass", "percussion"]);
  expect(new Set(channels.map((c) => c.id)).size).toBe(channels.length);
  expect(new Set(channels.map((c) => c.name)).size).toBe(channels.length);
});

it("drums and percussion among them are sent into the bus, nothing else is", () => {
  const { channels, buses } = applied(band, addChannels(FOUR, "m1"));
  const at = (n: number) => ({ ...BLANK_SEND, channel: channels[band.channels.length + n]?.id });
  expect(buses[0]?.sends).toEqual([...(band.buses[0]?.sends ?? []), at(0), at(3)]);
  expect(applied(band, addChannels(FOUR, null)).buses).toBe(band.buses);
});

it("too many are refused, with the reason, and none is added", () => {
  const room = LIMITS.channels - band.channels.length;
  const many = (count: number) => addChannels(Array(count).fill(fresh("Vox", "vocal")), "m1");
  expect(applied(band, many(room)).channels).toHaveLength(LIMITS.channels);
  expect(many(room).refuses?.(band)).toBeNull();
  expect(applied(band, many(room + 1))).toBe(band);
  expect(many(room + 1).refuses?.(band)).toBe(
    `${LIMITS.channels + 1} channels in all: too many. Allowed: ${LIMITS.channels}.`,
  );
});

it("none added changes nothing", () => {
  expect(applied(band, addChannels([], "m1"))).toBe(band);
});
