import { describe, expect, it } from "vitest";
import type { MeasuredChannel } from "../../src/core/model/setup";
import { LIMITS } from "../../src/document/limits";
import { mend } from "../../src/document/mend";
import type { SetupFile } from "../../src/document/schema";
import type { ReadNote } from "../../src/text/reading";
import { bandSetup } from "./band";
import { measured } from "./measured";

const example = bandSetup();

/** A setup mended, and what was said of it. */
const mended = (file: SetupFile) => {
  const notes: ReadNote[] = [];
  return { file: mend(file, (note) => notes.push(note)), notes };
};

const twice = <T>(list: readonly T[]): readonly T[] => [...list, ...list.slice(0, 1)];

it("of two with one id the later gets a free one of its own kind", () => {
  const { file, notes } = mended({
    ...example,
    channels: twice(example.channels),
    kit: { ...example.kit, pieces: twice(example.kit.pieces) },
    buses: twice(example.buses),
    listeners: twice(example.listeners),
  });
  const ids = [file.channels, file.kit.pieces, file.buses, file.listeners].map((list) => list.at(-1)?.id);
  expect(ids.map((id) => id?.replace(/\d+$/, ""))).toEqual(["s", "p", "m", "l"]);
  expect(new Set(file.channels.map((s) => s.id)).size).toBe(example.channels.length + 1);
  expect(notes).toEqual([
    { code: "id given", name: "Kick" },
    { code: "id given", name: "Kick" },
    { code: "id given", name: "Drums" },
    { code: "id given", name: "Audience" },
  ]);
});

it("what has an empty id gets one too", () => {
  const { file, notes } = mended({
    ...example,
    buses: [...example.buses, { ...example.buses[0], id: "" }],
  } as SetupFile);
  expect(file.buses[0]?.id).toBe("m1");
  expect(file.buses[1]?.id).toMatch(/^m[2-9]$/);
  expect(notes).toEqual([{ code: "id given", name: "Drums" }]);
});

it("where there is no room for a drummer the last performer becomes one, not the audience", () => {
  const [audience, , singer] = example.listeners;
  if (!audience || !singer) throw new Error("no listeners");
  const singers = Array.from({ length: LIMITS.listeners - 1 }, (_, at) => ({
    ...singer,
    id: `l${at + 10}`,
    name: `Singer ${at + 1}`,
  }));
  const { file, notes } = mended({ ...example, listeners: [...singers, audience] });
  expect(file.listeners.slice(-2).map((l) => [l.name, l.kind])).toEqual([
    ["Singer 31", "drummer"],
    ["Audience", "audience"],
  ]);
  expect(notes[0]).toEqual({ code: "listener turned", kind: "drummer", name: "Singer 31" });
});

it("of two drummers the first stays one, and the other is a performer, else as before", () => {
  const [audience, drummer, singer, ...others] = example.listeners;
  if (!singer) throw new Error("no singer");
  const { file } = mended({
    ...example,
    listeners: [audience, drummer, { ...singer, kind: "drummer" }, ...others],
  } as SetupFile);
  expect(singer.kind).toBe("performer");
  expect(file).toEqual(example);
});

describe("figures of a recording", () => {
  const recorded = (...channels: readonly MeasuredChannel[]): SetupFile => ({
    ...example,
    recording: {
      name: "Hall",
      seconds: 9,
      channels,
      correlation: channels.map((_, row) =>
        channels.map((__, column) => (row === column ? 1 : (row + column) / 10)),
      ),
    },
  });

  it("stay as they are where each is of a channel of its own", () => {
    const file = recorded(measured("s1", { rms: -30 }), measured("s2", { rms: -31 }));
    expect(mended(file)).toEqual({ file, notes: [] });
    expect(mend(file)).toBe(file);
  });

  it("of one channel twice: the first stay, with their correlations", () => {
    const { file, notes } = mended(
      recorded(measured("s1", { rms: -30 }), measured("s1", { rms: -40 }), measured("s2", { rms: -31 })),
    );
    expect(file.recording).toMatchObject({
      channels: [measured("s1", { rms: -30 }), measured("s2", { rms: -31 })],
      correlation: [
        [1, 0.2],
        [0.2, 1],
      ],
    });
    expect(notes).toEqual([{ code: "no such figures", name: "Hall" }]);
  });
});

it("hits of a piece that is not there leave the check, with a word; others stay without one", () => {
  const hit = (piece: string) => ({ piece, answer: "left" as const });
  const file = { ...example, check: { listener: "l2", hits: [hit("p1"), hit("p99"), hit("p2")] } };
  const { file: after, notes } = mended(file);
  expect(after.check).toEqual({ listener: "l2", hits: [hit("p1"), hit("p2")] });
  expect(notes).toEqual([{ code: "hits removed" }]);
  expect(mended(after).notes).toEqual([]);
});

it.each(["00", "0x1", "1e0", " 1", "-0", "1.0", "+1", "0 "])("a tick of %j is of no input", (at) => {
  const { file, notes } = mended({ ...example, lineCheck: { 0: true, 13: false, [at]: true } });
  expect(file.lineCheck).toEqual({ 0: true, 13: false });
  expect(notes).toEqual([{ code: "ticks removed" }]);
});
