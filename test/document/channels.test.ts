import { describe, expect, it } from "vitest";
import { BLANK_CHANNEL, BLANK_SEND } from "../../src/core/model/defaults";
import type { ChannelKind } from "../../src/core/model/setup";
import { addChannels } from "../../src/document/commands/add-channels";
import { setSends } from "../../src/document/commands/buses";
import { editChannels } from "../../src/document/commands/channels";
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
  expect(many(room + 1).refuses?.(band)).toEqual({
    of: "channels",
    count: LIMITS.channels + 1,
    limit: LIMITS.channels,
  });
});

it("none added changes nothing", () => {
  expect(applied(band, addChannels([], "m1"))).toBe(band);
});

describe("several channels at once", () => {
  it("each gets a patch of its own in one step, the others stay the very same", () => {
    const [kick, snare, hat] = band.channels;
    const set = editChannels(["s1", "s3"], ({ directOut }) => ({
      kind: "percussion",
      directOut: { ...directOut, tap: "pre-eq" },
    }));
    const { channels } = applied(band, set);
    expect(set.key).toBeNull();
    expect(channels[0]).toEqual({
      ...kick,
      kind: "percussion",
      directOut: { ...kick?.directOut, tap: "pre-eq" },
    });
    expect(channels[1]).toBe(snare);
    expect(channels[2]?.kind).toBe("percussion");
    expect(channels[2]?.name).toBe(hat?.name);
    expect(
      applied(
        band,
        editChannels(["s1", "gone"], ({ name }) => ({ name })),
      ),
    ).toBe(band);
  });

  it("they go into a bus or change their send in it as one step, and out of it again", () => {
    const ids = band.channels.map((c) => c.id);
    const all = applied(band, setSends("m1", ids, { tap: "pre-fader" }));
    expect(all.buses[0]?.sends.map((s) => s.channel).sort()).toEqual([...ids].sort());
    expect(new Set(all.buses[0]?.sends.map((s) => s.tap))).toEqual(new Set(["pre-fader"]));
    // What was in it keeps its level.
    expect(all.buses[0]?.sends[0]?.level).toBe(band.buses[0]?.sends[0]?.level);
    expect(applied(all, setSends("m1", ids, null)).buses[0]?.sends).toEqual([]);
    expect(applied(band, setSends("m1", ["gone"], {}))).toBe(band);
  });
});
