import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Setup } from "../../src/core/model/setup";
import { exampleSetup } from "../../src/document/example";
import { LIMITS, MAX_SETUP_BYTES } from "../../src/document/limits";
import { printSetup, readSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { printBackup } from "../../src/shelf/backup";
import { exportFile, readFile } from "../../src/shelf/file";
import { fromLink, LINK_LIMITS, toFragment } from "../../src/shelf/link";
import { applied, commands } from "../document/commands";
import { fullest } from "../document/fullest";

/** A text of so many characters that takes as many bytes of a file as it can: half a pair is written in six. */
const widest = (characters: number, number = 0): string =>
  `${"\uD800".repeat(characters - String(number).length)}${number}`;

/** A number with as many digits as one has. */
const LONG = -1 / 7;

/** A setup at every limit at once: each list full, each text as long as it may be and of the widest characters. */
const largest = (): SetupFile => {
  const full = fullest(LIMITS.channels, () => LONG);
  const name = widest(LIMITS.note);
  const ids = new Map<string, string>();
  const id = (of: string): string => {
    const at = ids.get(of) ?? widest(LIMITS.id, ids.size);
    ids.set(of, at);
    return at;
  };
  const pieces = Array.from({ length: LIMITS.pieces }, (_, at) => ({
    ...(full.kit.pieces[0] as Setup["kit"]["pieces"][number]),
    id: id(`p${at + 1}`),
    name,
    player: name,
    x: LONG,
    y: LONG,
  }));
  const channels = full.channels.map((channel) => ({
    ...channel,
    id: id(channel.id),
    name,
    piece: id("p1"),
    pan: LONG,
    fader: LONG,
    gatedRms: LONG,
    activity: 1 / 7,
    peak: LONG,
    numbers: [999, 999],
    directOut: { tap: "post-fader" as const, on: false, trim: LONG },
    colour: "orange" as const,
    group: name,
    extra: Array.from({ length: LIMITS.extra }, () => ({
      head: "\u{1F941}".repeat(LIMITS.name),
      value: "\u{1F941}".repeat(LIMITS.cell),
    })),
  }));
  return {
    ...full,
    name,
    note: name,
    kit: { ...full.kit, pieces },
    channels,
    buses: full.buses.map((bus) => ({
      ...bus,
      id: id(bus.id),
      name,
      sends: channels.map((channel) => ({
        channel: channel.id,
        on: false,
        level: LONG,
        tap: "post-fader" as const,
        pan: LONG,
      })),
    })),
    listeners: full.listeners.map((listener) => ({
      ...listener,
      id: id(listener.id),
      name,
      bus: id("m1"),
      x: LONG,
      y: LONG,
    })),
    monitor: {
      ...full.monitor,
      inputs: Array.from({ length: LIMITS.inputs }, () => ({
        feed: { kind: "bus", bus: id("m1"), side: "left" } as const,
        port: 999,
        on: true,
        trim: LONG,
      })),
    },
    preferences: { ...full.preferences, first: id(full.listeners[0]?.id ?? "") },
    recording: full.recording && {
      ...full.recording,
      name,
      channels: full.recording.channels.map((m) => ({
        channel: id(m.channel),
        rms: LONG,
        gatedRms: LONG,
        activity: 1 / 7,
        peak: LONG,
        truePeak: LONG,
        fast: LONG,
        slow: LONG,
      })),
    },
    check: {
      listener: id(full.listeners[0]?.id ?? ""),
      hits: Array.from({ length: LIMITS.hits }, () => ({ piece: id("p1"), answer: "unclear" as const })),
    },
    lineCheck: Object.fromEntries(Array.from({ length: LIMITS.inputs }, (_, at) => [at, false])),
  };
};

const whole = (file: SetupFile) => ({ ok: true, file, notes: [] });

describe("whatever is written is read:", () => {
  const most = largest();

  it("a setup at every limit at once, by its file and by a backup", async () => {
    expect(readSetup(most)).toEqual(whole(most));
    const { name, blob } = exportFile(most);
    expect(blob.size).toBeLessThanOrEqual(MAX_SETUP_BYTES);
    // Else the limit would say nothing: what is accepted comes near it.
    expect(blob.size).toBeGreaterThan(MAX_SETUP_BYTES / 2);
    expect(await readFile(new File([blob], name))).toEqual([whole(most)]);
    const backup = await printBackup({ texts: async () => [printSetup(most)] });
    expect(await readFile(new File(backup, "b.json"))).toEqual([whole(most)]);
  });

  it("a backup of many that are large", { timeout: 60_000 }, async () => {
    const texts = async () => Array(4).fill(printSetup(most));
    const backup = new File(await printBackup({ texts }), "b.json");
    expect(backup.size).toBeGreaterThan(64 * 2 ** 20);
    const read = await readFile(backup);
    expect(read.map((setup) => setup.ok && setup.notes.length)).toEqual([0, 0, 0, 0]);
  });

  it("a backup of any number of setups", async () => {
    const texts = async () => Array(1001).fill(printSetup(exampleSetup()));
    const read = await readFile(new File(await printBackup({ texts }), "b.json"));
    expect(read.filter((setup) => setup.ok)).toHaveLength(1001);
  });

  it("a link, or none is made", async () => {
    // Alike from end to end, it packs into little: what it expands to decides.
    const linked = (note: number) => toFragment({ ...exampleSetup(), note: "n".repeat(note) });
    const rest = new TextEncoder().encode(JSON.stringify({ ...exampleSetup(), note: "" })).length;
    expect(await fromLink(await linked(LINK_LIMITS.expanded - rest))).toMatchObject({ ok: true });
    await expect(linked(LINK_LIMITS.expanded - rest + 1)).rejects.toThrow("too large for a link");
  });

  it("any change of a setup whose texts are as long as they may be, with nothing cut", () => {
    const example = fullest(0, () => 0);
    const long = "n".repeat(LIMITS.note);
    const crowded: SetupFile = {
      ...example,
      name: long,
      kit: { ...example.kit, pieces: example.kit.pieces.map((piece) => ({ ...piece, name: long })) },
      channels: example.channels.slice(0, 20).map((channel) => ({ ...channel, name: long })),
      buses: example.buses.slice(0, 2).map((bus) => ({ ...bus, name: long, sends: bus.sends.slice(0, 20) })),
      listeners: example.listeners.slice(0, 5).map((listener) => ({ ...listener, name: long })),
    };
    const start = readSetup(crowded);
    if (!start.ok) throw new Error(start.why.code);
    fc.assert(
      fc.property(fc.array(commands, { maxLength: 25 }), (done) => {
        const file = applied(start.file, ...done);
        expect(readSetupText(printSetup(file))).toEqual(whole(file));
      }),
      { numRuns: 60 },
    );
  });

  it("ids, which are refused where they are longer than any that the app gives", () => {
    const [first, ...others] = most.channels;
    if (!first) throw new Error("no source");
    const odd = { ...most, channels: [{ ...first, id: "s".repeat(LIMITS.id + 1) }, ...others] };
    expect(readSetup(odd)).toEqual({
      ok: false,
      why: { code: "long id", at: "channels[0].id", letters: 41, limit: 40 },
    });
  });
});
