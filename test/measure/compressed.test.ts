import { describe, expect, it } from "vitest";
import { lookAt } from "../../src/measure/compressed";
import { readFacts } from "../../src/measure/facts";
import type { SoundFileNote } from "../../src/text/sound-files";
import { noise } from "../tools/chance.mjs";
import { type Coding, coded } from "./coded";
import { wavFile } from "./wavfile";

const RATE = 48_000;
const random = noise(5);
const track = Float64Array.from({ length: 2 * RATE }, () => 0.3 * random());
const wav = wavFile([track, track.map((x) => -x / 2)], { width: 2 });

describe("a look at a compressed file", () => {
  /** Frames that a coder may add at the beginning and fill its last packet up with. */
  const padding: { readonly [coding in Exclude<Coding, "aiff">]: number } = {
    flac: 0,
    mp3: 3 * 1152,
    ogg: 4096,
    opus: 2 * 960,
    m4a: 3 * 1024,
    aac: 3 * 1024,
  };
  it.each(Object.entries(padding))("%s: rate, channels, length", async (coding, most) => {
    const look = await lookAt(new Blob([coded(coding as Coding, wav)]));
    expect(look).toMatchObject({ kind: "sound", rate: RATE, channels: 2 });
    if (look.kind !== "sound") return;
    expect(look.frames).toBeGreaterThanOrEqual(track.length);
    expect(look.frames - track.length).toBeLessThanOrEqual(most);
  });

  it("of a file whose header lies goes by what is in it", async () => {
    const bytes = coded("flac", wav);
    // The last 32 of the 36 bits that tell the samples, behind two heads of 4 bytes (RFC 9639, 8.2).
    const at = 4 + 4 + 14;
    expect(new TextDecoder().decode(bytes.slice(0, 4))).toBe("fLaC");
    bytes.set([0x7f, 0xff, 0xff, 0xff], at);
    const look = await lookAt(new Blob([bytes]));
    expect(look).toMatchObject({ kind: "sound", frames: track.length, promised: 2 ** 31 - 1 });
  });

  it("a file that is cut off is measured up to the cut, and it is said", async () => {
    const input = {
      kind: "compressed",
      name: "a.flac",
      file: new Blob([]),
      rate: RATE,
      channels: 2,
    } as const;
    const noted = async (frames: number, promised: number | null): Promise<readonly SoundFileNote[]> => {
      const read = await readFacts({ ...input, frames, promised });
      return read.ok ? read.facts.notes.slice(1) : [];
    };
    expect(await noted(60 * RATE, 90 * RATE)).toEqual([
      { code: "cut", name: "a.flac", promised: 90, held: 60 },
    ]);
    expect(await noted(60 * RATE, 60 * RATE + 4608)).toEqual([]);
    expect(await noted(60 * RATE, null)).toEqual([]);
  });

  it("of anything else says that it is unknown, and never fails", async () => {
    const flac = coded("flac", wav);
    expect(await lookAt(new Blob(["no sound at all"]))).toEqual({ kind: "unknown" });
    expect(await lookAt(new Blob([]))).toEqual({ kind: "unknown" });
    expect(await lookAt(new Blob([coded("aiff", wav)]))).toEqual({ kind: "unknown" });
    for (const length of [4, 20, 42, 100])
      expect((await lookAt(new Blob([flac.slice(0, length)]))).kind, `${length} bytes`).toMatch(
        /unknown|sound/,
      );
  });

  it("of a file that has gone says so", async () => {
    const gone = new Blob([coded("flac", wav)]);
    Object.defineProperty(gone, "slice", {
      value: () => {
        throw new DOMException("gone", "NotReadableError");
      },
    });
    expect(await lookAt(gone)).toEqual({ kind: "gone" });
  });
});
