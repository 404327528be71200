import { describe, expect, it } from "vitest";
import { type Decoder, prepareInput } from "../../src/measure/decode";
import { wavFile } from "./wavfile";

const MB = 2 ** 20;
const decoderOf = (channels: readonly Float32Array[]) => {
  const given: number[] = [];
  const decoder = (): Decoder => ({
    sampleRate: 48_000,
    decodeAudioData: async (data) => {
      given.push(data.byteLength);
      return {
        numberOfChannels: channels.length,
        sampleRate: 48_000,
        getChannelData: (i: number) => channels[i],
      } as unknown as AudioBuffer;
    },
  });
  return { decoder, given };
};
const decoded = [Float32Array.of(0.5, -0.5)];

describe("a compressed file", () => {
  it("of more than 32 MB is refused before anything of it is decoded, with its size", async () => {
    const { decoder, given } = decoderOf(decoded);
    const file = new File([new Uint8Array(40 * MB)], "long.mp3");
    expect(await prepareInput(file, decoder)).toEqual({
      ok: false,
      why: "“long.mp3” is compressed and 40 MB large; up to 32 MB can be decoded here. Export it as WAV.",
    });
    expect(given).toEqual([]);
  });

  it("of one byte more is refused, of 32 MB it is decoded", async () => {
    const { decoder, given } = decoderOf(decoded);
    const over = await prepareInput(new File([new Uint8Array(32 * MB + 1)], "over.flac"), decoder);
    expect(over).toMatchObject({ ok: false, why: expect.stringContaining("33 MB large; up to 32 MB") });
    const just = await prepareInput(new File([new Uint8Array(32 * MB)], "just.flac"), decoder);
    expect(just).toEqual({
      ok: true,
      input: { kind: "decoded", name: "just.flac", rate: 48_000, channels: decoded },
    });
    expect(given).toEqual([32 * MB]);
  });
});

describe("a WAV file", () => {
  it("of any size goes on as it is: by its name, or by how it begins", async () => {
    const { decoder, given } = decoderOf(decoded);
    const large = new File([new Uint8Array(33 * MB)], "long.wav");
    expect(await prepareInput(large, decoder)).toEqual({
      ok: true,
      input: { kind: "file", name: "long.wav", file: large },
    });
    const unnamed = new File([wavFile([[0.5]])], "take 7");
    expect((await prepareInput(unnamed, decoder)).ok).toBe(true);
    expect(given).toEqual([]);
  });
});
