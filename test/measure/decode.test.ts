import { describe, expect, it } from "vitest";
import { lookAt } from "../../src/measure/compressed";
import { type DecodePlatform, type Decoder, prepareInput } from "../../src/measure/decode";
import type { Look } from "../../src/measure/protocol";
import type { SoundFileNote } from "../../src/text/sound-files";
import { noise } from "../tools/chance.mjs";
import { coded, codedSilence } from "./coded";
import { wavFile } from "./wavfile";

const MB = 2 ** 20;
const RATE = 48_000;
const decoded = [Float32Array.of(0.5, -0.5)];

/** A browser that decodes nothing in pieces, or everything, and tells the sizes of what it decoded as a whole. */
const platform = (change: (look: Look) => Look = (look) => look) => {
  const given: number[] = [];
  const decoder = (): Decoder => ({
    sampleRate: RATE,
    decodeAudioData: async (data) => {
      given.push(data.byteLength);
      return {
        numberOfChannels: decoded.length,
        sampleRate: RATE,
        getChannelData: (i: number) => decoded[i],
      } as unknown as AudioBuffer;
    },
  });
  const look = async (file: Blob) => change(await lookAt(file));
  return { given, tools: { look, decoder } satisfies DecodePlatform };
};
const inPieces = (look: Look): Look => (look.kind === "sound" ? { ...look, inPieces: true } : look);
const long = (frames: number) => (look: Look) => (look.kind === "sound" ? { ...look, frames } : look);

const random = noise(3);
const sound = wavFile([Float64Array.from({ length: RATE / 2 }, () => 0.4 * random())], { width: 2 });
const named = (name: string, bytes: Uint8Array<ArrayBuffer>): File => new File([bytes], name);
const whyNot = async (file: File, tools: DecodePlatform): Promise<SoundFileNote | null> => {
  const prepared = await prepareInput(file, tools);
  return prepared.ok ? null : prepared.why;
};

/** Bytes that a file was found to unpack to. */
const unpacked = (note: SoundFileNote | null): number => (note?.code === "large" ? note.bytes : Number.NaN);

describe("a compressed file where the browser decodes in pieces", () => {
  it("of any size goes to the worker as it is, with what the look found", async () => {
    const { given, tools } = platform(inPieces);
    const file = named("hours.flac", codedSilence("flac", 120, "7.1"));
    expect(file.size).toBeLessThan(10 * MB);
    const prepared = await prepareInput(file, tools);
    expect(prepared).toMatchObject({
      ok: true,
      input: { kind: "compressed", name: "hours.flac", rate: RATE, channels: 8 },
    });
    expect(given).toEqual([]);
  });

  it("of more than a day is refused, with how long it is", async () => {
    const { tools } = platform((look) => long(24.5 * 3600 * RATE)(inPieces(look)));
    expect(await whyNot(named("week.flac", coded("flac", sound)), tools)).toEqual({
      code: "long",
      name: "week.flac",
      hours: 24.5,
      most: 24,
    });
    const day = platform((look) => long(24 * 3600 * RATE)(inPieces(look)));
    expect(await whyNot(named("day.flac", coded("flac", sound)), day.tools)).toBeNull();
  });

  it("of a rate or channels that cannot be measured is refused", async () => {
    const change = (of: object) => platform((look) => ({ ...inPieces(look), ...of })).tools;
    const file = named("odd.flac", coded("flac", sound));
    expect(await whyNot(file, change({ rate: 4000 }))).toEqual({
      code: "rate",
      name: "odd.flac",
      rate: 4000,
      allowed: [8000, 192_000],
    });
    expect(await whyNot(file, change({ channels: 65 }))).toEqual({
      code: "channels",
      name: "odd.flac",
      channels: 65,
      allowed: [1, 64],
    });
  });
});

const coded5s = codedSilence("mp3", 5, "stereo");

describe("a compressed file where the browser decodes it only as a whole", () => {
  it("that unpacks to too much is refused before anything of it is decoded, with what it unpacks to", async () => {
    const { given, tools } = platform();
    const bomb = named("bomb.flac", codedSilence("flac", 120, "7.1"));
    const megabytes = (120 * RATE * 8 * 4) / MB;
    expect(megabytes).toBeGreaterThan(170);
    const much = await whyNot(bomb, tools);
    expect(much).toMatchObject({ code: "large", name: "bomb.flac", most: 128 * MB });
    expect(unpacked(much) / MB).toBeCloseTo(megabytes, 0);
    // The first of many parts tells its own length only.
    const parts = Array.from({ length: 90 }, () => coded5s);
    const song = new File(parts, "song.mp3");
    expect(unpacked(await whyNot(song, tools)) / MB).toBeCloseTo(165, -1);
    expect(given).toEqual([]);
  });

  it("is decoded up to 128 MB and not a frame beyond", async () => {
    const most = (128 * MB) / 4;
    const file = named("just.flac", coded("flac", sound));
    const just = platform(long(most));
    expect(await prepareInput(file, just.tools)).toEqual({
      ok: true,
      input: { kind: "decoded", name: "just.flac", rate: RATE, channels: decoded },
    });
    expect(just.given).toEqual([file.size]);
    const over = platform(long(most + 1));
    expect(await whyNot(file, over.tools)).toMatchObject({ code: "large", bytes: 128 * MB + 4 });
    expect(over.given).toEqual([]);
  });

  it("plain samples of another kind go by their size", async () => {
    const { given, tools } = platform();
    const aiff = coded("aiff", sound);
    expect((await prepareInput(named("take.aiff", aiff), tools)).ok).toBe(true);
    const large = new Uint8Array(17 * MB);
    large.set(aiff.slice(0, 100));
    expect(unpacked(await whyNot(named("large.aiff", large), tools))).toBe(136 * MB);
    const other = Uint8Array.from([..."caff\0\x01\0\0desc\0\0\0\0\0\0\0 AAAAAAAAaac "], (c) =>
      c.charCodeAt(0),
    );
    expect(await whyNot(named("unknown.caf", other), tools)).toEqual({
      code: "unknown",
      name: "unknown.caf",
    });
    expect(given).toEqual([aiff.length]);
  });
});

describe("what cannot be read", () => {
  it.each([
    [{ kind: "unknown" }, { code: "unknown", name: "x.mp3" }],
    [{ kind: "gone" }, { code: "gone", name: "x.mp3" }],
    [
      { kind: "late", seconds: 30 },
      { code: "looked at too long", name: "x.mp3", seconds: 30 },
    ],
    [
      { kind: "failed", trouble: { when: "run", why: "no answer" } },
      { code: "looked at in vain", name: "x.mp3", trouble: { when: "run", why: "no answer" } },
    ],
  ] as const)("%o", async (look, why) => {
    const { tools } = platform(() => look);
    expect(await whyNot(named("x.mp3", Uint8Array.of(1)), tools)).toEqual(why);
  });
});

describe("a WAV file", () => {
  it("of any size goes on as it is: by its name, or by how it begins", async () => {
    const { given, tools } = platform();
    const large = new File([new Uint8Array(33 * MB)], "long.wav");
    expect(await prepareInput(large, tools)).toEqual({
      ok: true,
      input: { kind: "file", name: "long.wav", file: large },
    });
    expect((await prepareInput(new File([wavFile([[0.5]])], "take 7"), tools)).ok).toBe(true);
    expect(given).toEqual([]);
  });
});
