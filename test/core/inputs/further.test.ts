import { describe, expect, it } from "vitest";
import { extraHeads, extraUnder, joinedExtra, withExtra } from "../../../src/core/inputs/list-extra";
import { busesNamed, listSendsOf, type NamedSend, withListSends } from "../../../src/core/inputs/list-sends";
import { BLANK_SEND } from "../../../src/core/model/defaults";
import type { ExtraColumn, Send } from "../../../src/core/model/setup";
import { bus, channel, setup } from "./setups";

const columns = (all: Readonly<Record<string, string>>): ExtraColumn[] =>
  Object.entries(all).map(([head, value]) => ({ head, value }));

describe("further columns of an input list", () => {
  it("what is said goes over what was there, in its place and under its head; what is new stands behind", () => {
    expect(
      withExtra(columns({ Mic: "dynamic", Notes: "taped" }), columns({ " notes": "", Stand: "boom" })),
    ).toEqual(columns({ Mic: "dynamic", Notes: "", Stand: "boom" }));
    expect(withExtra(columns({ Mic: "dynamic" }), [])).toEqual(columns({ Mic: "dynamic" }));
  });

  it("are found whatever the size of the letters of their heads", () => {
    expect(extraUnder(columns({ "48V": "yes" }), "48v ")).toBe("yes");
    expect(extraUnder(columns({ "48V": "yes" }), "48")).toBe("");
  });

  it("of L and R are one where they say the same, both where they differ", () => {
    expect(
      joinedExtra(
        columns({ Mic: "DI", Notes: "left" }),
        columns({ mic: "DI", Notes: "right", Stand: "none" }),
      ),
    ).toEqual(columns({ Mic: "DI", Notes: "left / right", Stand: "none" }));
    expect(joinedExtra(undefined, columns({ Mic: "DI" }))).toEqual(columns({ Mic: "DI" }));
  });

  it("have each head once, as it comes first", () => {
    expect(
      extraHeads([
        { extra: columns({ Mic: "" }) },
        { extra: columns({ Notes: "", MIC: "" }) },
        { extra: [] },
      ]),
    ).toEqual(["Mic", "Notes"]);
  });
});

describe("sends of an input list", () => {
  const pre = (channel: string): Send => ({ ...BLANK_SEND, channel, tap: "pre-fader", pan: 0.5 });
  const drums = { name: "Drums", numbers: [5, 6], stereo: true };
  const { buses, channels } = setup(
    [channel("s1"), channel("s2"), channel("s3")],
    [
      { ...bus("m1", ["s1", "s2"]), ...drums, trim: -3, sends: ["s1", "s2"].map(pre) },
      { ...bus("m2", ["s2"]), name: "Keys" },
    ],
    [],
  );
  const named = (...all: readonly [string, ...NamedSend[]][]) =>
    all.map(([channel, ...sends]) => ({ channel, sends }));

  it("are those of the channel in the order of the buses", () => {
    expect(channels.map((c) => listSendsOf({ buses }, c).map((s) => s.bus.name))).toEqual([
      ["Drums"],
      ["Drums", "Keys"],
      [],
    ]);
    expect(listSendsOf({ buses }, { id: "s1" })[0]).not.toHaveProperty("channel");
  });

  it("change what they say of one that is there, take it out, or put it in; the bus itself stays as it is", () => {
    const after = withListSends(
      buses,
      named(
        ["s1", { bus: drums, level: -6.25 }],
        ["s2", { bus: drums, out: true }],
        ["s3", { bus: drums, on: false }],
      ),
    );
    expect(after[0]).toEqual({
      ...buses[0],
      sends: [
        { ...buses[0]?.sends[0], level: -6.25 },
        { ...BLANK_SEND, channel: "s3", on: false },
      ],
    });
    expect(after[1]).toBe(buses[1]);
  });

  it("find the bus by all that its head says, else by its name alone; else it is built", () => {
    const alone = { name: "drums ", numbers: [], stereo: true };
    const strange = { name: "Horns", numbers: [9], stereo: false };
    const twin = { name: "Drums", numbers: [7], stereo: false };
    const way = (bus: NamedSend["bus"]): NamedSend => ({ bus, level: -1 });
    expect(withListSends(buses, named(["s1", way(alone)])).map((b) => b.sends[0]?.level)).toEqual([
      -1,
      buses[1]?.sends[0]?.level,
    ]);
    const wide = buses.map((b) => ({ ...b, name: b.name.replace("Drums", "Drums\u00a0 of\n Mara") }));
    expect(withListSends(wide, named(["s1", way({ ...drums, name: "Drums of Mara" })]))).toHaveLength(2);
    const more = withListSends(buses, named(["s1", way(twin), way(drums), way(strange)]));
    expect(more.map((b) => [b.name, b.numbers, b.stereo, b.sends.length])).toEqual([
      ["Drums", [5, 6], true, 2],
      ["Keys", [], buses[1]?.stereo, 1],
      ["Drums", [7], false, 1],
      ["Horns", [9], false, 1],
    ]);
    expect(new Set(more.map((b) => b.id)).size).toBe(4);
    expect(withListSends(buses, named(["s1"]))).toBe(buses);
  });

  it("name each bus once", () => {
    const bus = { ...drums };
    expect(busesNamed([[{ bus }], [{ bus: drums }, { bus: { ...drums, numbers: [5] } }]])).toEqual([
      drums,
      { ...drums, numbers: [5] },
    ]);
  });
});
