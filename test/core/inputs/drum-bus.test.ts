import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drumBusOf, isForDrumBus, withDrumBus, withDrumsIn } from "../../../src/core/inputs/drum-bus";
import { withList } from "../../../src/core/inputs/list";
import { BLANK_SEND } from "../../../src/core/model/defaults";
import { CHANNEL_KINDS } from "../../../src/core/model/kinds";
import type { Channel, ChannelKind } from "../../../src/core/model/setup";
import { blankSetup } from "../../../src/document/blank";
import { openCsv } from "../../../src/shelf/csv";
import { readList } from "../../../src/shelf/csv-list";
import { anySetup, bus, channel, setup } from "./setups";

const drum = (id: string, kind: ChannelKind = "drum"): Channel => channel(id, { kind });
const four = [drum("s1"), drum("s2", "percussion"), drum("s3", "bass"), drum("s4", "vocal")];

describe("the drum bus", () => {
  it("takes drums and percussion, and nothing else", () => {
    const all = Object.keys(CHANNEL_KINDS) as ChannelKind[];
    expect(all.filter((kind) => isForDrumBus({ kind }))).toEqual(["drum", "percussion"]);
  });

  it("is the bus that takes more drums than anything else, of several the one with most", () => {
    const found = (...buses: ReturnType<typeof bus>[]) => drumBusOf(setup(four, buses, []))?.id ?? null;
    expect(found()).toBeNull();
    expect(found(bus("m1", []))).toBeNull();
    expect(found(bus("m1", ["s1", "s3"]))).toBeNull();
    expect(found(bus("m1", ["s1", "s2", "s3", "s4"]), bus("m2", ["s2"]))).toBe("m2");
    expect(found(bus("m1", ["s1"]), bus("m2", ["s1", "s2", "s3"]))).toBe("m2");
    expect(found(bus("m1", ["s1"]), bus("m2", ["s2"]))).toBe("m1");
  });

  it("takes who is not in it, at 0 dB behind those who are; nothing of theirs changes", () => {
    const before = { ...bus("m1", ["s1"]), sends: [{ ...BLANK_SEND, channel: "s1", level: -6 }] };
    expect(withDrumsIn(before, four)).toEqual({
      ...before,
      sends: [
        { ...BLANK_SEND, channel: "s1", level: -6 },
        { ...BLANK_SEND, channel: "s2" },
      ],
    });
    expect(withDrumsIn(before, four.slice(2))).toBe(before);
  });

  it("is built where there is none, and heard by the drummer who heard none; one who hears another keeps it", () => {
    const [audience, drummer] = blankSetup().listeners;
    if (!audience || !drummer) throw new Error("no listeners");
    const busy = { ...drummer, id: "l3", bus: "m1" };
    const of = {
      ...setup(four, [{ ...bus("m1", ["s3"]), name: "Drums" }], []),
      listeners: [audience, drummer, busy],
    };
    const after = withDrumBus(of, { channels: four.slice(1) }, null);
    expect(after.buses).toHaveLength(2);
    expect(after.buses[1]).toMatchObject({
      name: "Drums 2",
      stereo: true,
      numbers: [],
      sends: [{ ...BLANK_SEND, channel: "s1" }],
    });
    expect(after.listeners.map((l) => l.bus)).toEqual([null, after.buses[1]?.id, "m1"]);
  });

  it("leaves everything else alone, and everything where no drum is new", () => {
    fc.assert(
      fc.property(anySetup(6, 8), (s) => {
        expect(withDrumBus(s, s, null)).toBe(s);
        const into = s.buses[0]?.id ?? null;
        const after = withDrumBus(s, { channels: [] }, into);
        expect({ ...after, buses: [], listeners: [] }).toEqual({ ...s, buses: [], listeners: [] });
        if (into === null) return;
        expect(after.buses.slice(1)).toEqual(s.buses.slice(1));
        expect(after.listeners).toBe(s.listeners);
        const inside = after.buses[0]?.sends.map((send) => send.channel) ?? [];
        expect(new Set(inside).size).toBe(inside.length);
        for (const { id } of s.channels.filter(isForDrumBus)) expect(inside).toContain(id);
      }),
    );
  });

  it("comes of a stage's input list, which names no bus", async () => {
    const blank = blankSetup();
    const opened = await openCsv(
      new Blob([
        [
          "Ch,Name,Mic,Stand,48V,Notes",
          "1,Kick in,boundary,,Y,",
          "2,Snr top,dynamic,short boom,,taped",
          "3,OH SR,condenser,tall boom,Y,",
          "4,OH SL,condenser,tall boom,Y,",
          "5,Congas,dynamic,boom,,",
          "6,Bass,DI,,,",
        ].join("\n"),
      ]),
    );
    if (!opened.ok) throw new Error(opened.why.code);
    const { table } = opened;
    const read = readList(table, table.mapping, table.header, blank);
    if (!read.ok) throw new Error(JSON.stringify(read.why));
    expect(read.namesBuses).toBe(false);
    const after = withDrumBus(withList(blank, read.lines, "add"), blank, drumBusOf(blank)?.id ?? null);
    const nameOf = (id: string) => after.channels.find((c) => c.id === id)?.name;
    expect(after.buses.map((b) => [b.name, b.sends.map((s) => nameOf(s.channel))])).toEqual([
      ["Drums", ["Kick in", "Snr top", "OH SR", "OH SL", "Congas"]],
    ]);
  });
});
