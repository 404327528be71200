import { readdirSync, readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SoundFileNote } from "../../src/text/sound-files";
import { watchMemory } from "../bench/memory.mjs";
import { type Coding, coded, codedSilence } from "../measure/coded";
import { measureBytes } from "../measure/job";
import { wavFile } from "../measure/wavfile";
import { noise } from "../tools/chance.mjs";
import { serveRooms } from "../tools/rooms-site.mjs";
import { startChromium } from "./drivers/chromium";
import { type Driver, type Start, until } from "./drivers/driver";
import { startFirefox } from "./drivers/firefox";
import { ours } from "./faults";

const ENGINES: readonly (readonly [name: string, start: Start])[] = [
  ["Chromium", startChromium],
  ["Firefox ESR", startFirefox],
];

/** Every process that was started by one, or by one of those. Linux only. */
const descendants = (of: number): number[] => {
  const parents = readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => {
      try {
        const stat = readFileSync(`/proc/${name}/stat`, "utf8");
        return [[Number(name), Number(/\) \S (\d+)/.exec(stat)?.[1])] as const];
      } catch {
        return [];
      }
    });
  const below = (id: number): number[] =>
    parents.flatMap(([child, parent]) => (parent === id ? [child, ...below(child)] : []));
  return below(of);
};

const RATE = 48_000;
const random = noise(17);
/** Six seconds of noise below 2 kHz, which every coder keeps, coming and going; the second channel is half of it. */
const track = new Float64Array(6 * RATE);
let low = 0;
for (let i = 0; i < track.length; i += 1) {
  low += 0.2 * (random() - low);
  track[i] = 0.6 * low * (0.2 + Math.abs(Math.sin((2 * Math.PI * i) / RATE)));
}
const wav = wavFile([track, track.map((x) => x / 2)], { width: 2 });

/** What is measured of a file that was chosen. */
interface Seen {
  readonly why: string;
  readonly kind: string;
  readonly seconds: number;
  readonly rms: readonly number[];
  readonly peaks: readonly number[];
  readonly heard: readonly number[];
  readonly notes: readonly SoundFileNote[];
}

const measured = (driver: Driver, name: string, bytes: Uint8Array): Promise<Seen> =>
  driver.run(`
    const bytes = Uint8Array.from(atob(${JSON.stringify(Buffer.from(bytes).toString("base64"))}), (c) => c.charCodeAt(0));
    const platform = { look: rooms.askLook, decoder: () => new OfflineAudioContext(2, 128, ${RATE}) };
    const prepared = await rooms.prepareInput(new File([bytes], ${JSON.stringify(name)}), platform);
    if (!prepared.ok) return { why: prepared.why.code };
    const tracks = [0, 1].map((channel) => ({ input: 0, channel, gains: [1, 1] }));
    const job = { inputs: [prepared.input], tracks, align: "start" };
    const outcome = await rooms.measure(new AbortController().signal, job);
    if (outcome.kind === "refused") return { why: JSON.stringify(outcome.why) };
    const { figures, notes } = outcome.measurement;
    const excerpt = await rooms.askExcerpt(job, 2, 0.01);
    return {
      why: "",
      kind: prepared.input.kind,
      seconds: figures.seconds,
      rms: figures.tracks.map((t) => t.rms),
      peaks: figures.tracks.map((t) => t.peak),
      heard: [...(excerpt?.tracks[1] ?? [])],
      notes,
    };
  `);

describe.each(ENGINES)("compressed sound in %s", (_, start) => {
  let driver: Driver;
  let site: Awaited<ReturnType<typeof serveRooms>>;
  beforeAll(async () => {
    site = ours(await serveRooms("test/browser/rooms-page.ts"));
    driver = await start();
    await driver.open(site.url);
    await until(driver, 'return "rooms" in globalThis;', "the rooms");
  });
  afterAll(async () => {
    await driver.close();
    await site.stop();
  });

  it("FLAC, which loses nothing, measures as the WAV file does, and is heard sample by sample", async () => {
    const outcome = await measureBytes(wav, [
      [1, 1],
      [1, 1],
    ]);
    if (outcome.kind === "refused") throw new Error(JSON.stringify(outcome.why));
    const { tracks } = outcome.measurement.figures;
    const seen = await measured(driver, "take.flac", coded("flac", wav));
    expect(seen).toMatchObject({ why: "", kind: "compressed", seconds: 6 });
    expect(seen.notes).toEqual([{ code: "decoded", name: "take.flac", rate: 48_000 }]);
    tracks.forEach((t, at) => {
      // A browser may divide whole numbers above 0 by 2^n − 1, not 2^n: 3e-4 dB of 16 bits.
      expect(Math.abs((seen.rms[at] ?? 9) - t.rms)).toBeLessThan(3e-4);
      expect(Math.abs((seen.peaks[at] ?? 9) - t.peak)).toBeLessThan(3e-4);
    });
    expect(seen.heard).toHaveLength(RATE / 100);
    seen.heard.forEach((x, i) => {
      expect(Math.abs(x - (track[2 * RATE + i] ?? 9) / 2)).toBeLessThan(2 ** -14);
    });
  });

  it.each<Coding>(["mp3", "ogg", "opus", "m4a", "aac"])(
    "%s is decoded in pieces, as long and as loud as it was",
    async (coding) => {
      const seen = await measured(driver, `take.${coding}`, coded(coding, wav));
      expect(seen).toMatchObject({ why: "", kind: "compressed" });
      expect(seen.seconds).toBeGreaterThan(5.99);
      expect(seen.seconds).toBeLessThan(6.1);
      const power = track.reduce((sum, x) => sum + x * x, 0) / track.length;
      expect(Math.abs((seen.rms[0] ?? 9) - 10 * Math.log10(power))).toBeLessThan(0.5);
      expect(Math.abs((seen.rms[1] ?? 9) - 10 * Math.log10(power / 4))).toBeLessThan(0.5);
    },
  );

  it("a file that is damaged in the middle says where", async () => {
    const bytes = coded("flac", wav);
    bytes.fill(0xff, bytes.length / 2, bytes.length / 2 + 60_000);
    const seen = await measured(driver, "torn.flac", bytes);
    // Either its packets can be told apart no more, or the decoder stops: no figure stands for what is not there.
    expect(seen.why === "" ? seen.seconds : 0).toBeLessThan(5);
  });

  it("a small file that unpacks to half a gigabyte is measured in pieces, without the memory", async () => {
    const SECONDS = 300;
    const bomb = codedSilence("flac", SECONDS, "7.1");
    const unpacked = SECONDS * RATE * 8 * Float32Array.BYTES_PER_ELEMENT;
    expect(bomb.length).toBeLessThan(unpacked / 1000);
    const watches = descendants(process.pid).map((id) => watchMemory(id));
    const seen = await measured(driver, "bomb.flac", bomb);
    expect(seen).toMatchObject({ why: "", kind: "compressed" });
    expect(seen.seconds).toBeGreaterThan(SECONDS - 1);
    expect(seen.peaks.every((peak) => peak === null || peak === Number.NEGATIVE_INFINITY)).toBe(true);
    const grown = watches.reduce((sum, most) => sum + most(), 0);
    expect(grown).toBeLessThan(unpacked / 2);
  });

  it("nothing went wrong on the way", () => expect(driver.faults()).toEqual([]));
});
