import { describe, expect, it } from "vitest";
import { bytesOf } from "../../src/measure/bytes";
import { runJob } from "../../src/measure/engine";
import { WAV_HEADS } from "../../src/measure/wav/chunks";
import { sliceOf } from "../../src/measure/wav/decode";
import { openWav, type Wav } from "../../src/measure/wav/open";
import type { WavNote } from "../../src/text/sound-files";
import { noise } from "../tools/chance.mjs";
import { file, measureBytes, notesOf, numbersIn, whyNot } from "./job";
import { bext, chunk, type WavPlan, wavFile } from "./wavfile";

const random = noise(1);
const ramp = (frames: number): Float64Array => Float64Array.from({ length: frames }, random);

const open = async (bytes: Uint8Array): Promise<Wav> => {
  const opened = await openWav(bytesOf(new Blob([bytes as Uint8Array<ArrayBuffer>])));
  if (!opened.ok) throw new Error(opened.why.code);
  return opened.wav;
};
const refusal = async (bytes: Uint8Array): Promise<WavNote | null> => {
  const opened = await openWav(bytesOf(new Blob([bytes as Uint8Array<ArrayBuffer>])));
  return opened.ok ? null : opened.why;
};

const readBack = async (bytes: Uint8Array): Promise<Float64Array[]> => {
  const wav = await open(bytes);
  const frame = wav.width * wav.channels;
  const slice = sliceOf(wav, bytes.slice(wav.dataAt, wav.dataAt + wav.frames * frame));
  return Array.from({ length: wav.channels }, (_, c) => {
    const out = new Float64Array(wav.frames);
    // In uneven pieces, so that no piece begins or ends on a word.
    for (let at = 0; at < wav.frames; at += 7) slice.decode(c, at, Math.min(7, wav.frames - at), out, at);
    return out;
  });
};

const codings: readonly [name: string, plan: WavPlan, step: number][] = [
  ["16 bits", { width: 2 }, 2 ** -15],
  ["24 bits", { width: 3 }, 2 ** -23],
  ["32 bits", { width: 4 }, 2 ** -31],
  ["24 valid bits in 32", { width: 4, bits: 24, extensible: true }, 2 ** -31],
  ["20 valid bits in 24", { width: 3, bits: 20, extensible: true }, 2 ** -23],
  ["32-bit floating point", { coding: "float", width: 4 }, 2 ** -24],
  ["64-bit floating point", { coding: "float", width: 8 }, 0],
];

describe("samples of every coding", () => {
  for (const channels of [1, 2, 3, 8, 64])
    it.each(codings)(`%s, ${channels} channels`, async (_, plan, step) => {
      const written = Array.from({ length: channels }, () => ramp(61));
      const read = await readBack(wavFile(written, plan));
      expect(read.length).toBe(channels);
      read.forEach((samples, c) => {
        samples.forEach((x, i) => {
          expect(Math.abs(x - (written[c]?.[i] ?? Number.NaN))).toBeLessThanOrEqual(step);
        });
      });
    });

  it("both ends of the scale", async () => {
    for (const width of [2, 3, 4] as const) {
      const [read] = await readBack(wavFile([[-1, 1, 0, -1, 1]], { width }));
      const full = 1 - 2 ** (1 - width * 8);
      expect([...(read ?? [])]).toEqual([-1, full, 0, -1, full]);
    }
  });

  it("whole words of four 24-bit samples and byte by byte are the same", async () => {
    const written = ramp(64);
    const bytes = wavFile([written]);
    const wav = await open(bytes);
    const slice = sliceOf(wav, bytes.slice(wav.dataAt));
    const [words, single] = [new Float64Array(64), new Float64Array(64)];
    slice.decode(0, 0, 64, words, 0);
    for (let i = 0; i < 64; i += 1) slice.decode(0, i, 1, single, i);
    expect(words).toEqual(single);
  });
});

describe("the header", () => {
  it.each(["RIFF", "RF64", "BW64"] as const)("%s", async (form) => {
    const wav = await open(wavFile([ramp(10), ramp(10)], { form }));
    expect(wav).toMatchObject({ frames: 10, channels: 2, rate: 48_000, width: 3, notes: [], began: null });
  });

  it("chunks in any order, of odd length, before and behind", async () => {
    const odd = new Uint8Array(7).fill(65);
    const wav = await open(
      wavFile([ramp(11)], {
        before: [["JUNK", odd]],
        between: [
          ["LIST", odd],
          ["bext", bext(48_000 * 3600, 3)],
        ],
        behind: [["iXML", odd]],
      }),
    );
    expect(wav).toMatchObject({ frames: 11, began: 48_000 * 3600, notes: [] });
  });

  it("bext behind the samples, and fmt behind them", async () => {
    expect((await open(wavFile([ramp(11)], { behind: [["bext", bext(77)]] }))).began).toBe(77);
    const plain = wavFile([ramp(4)]);
    const fmt = plain.slice(12, 36);
    const turned = new Uint8Array([...plain.slice(0, 12), ...plain.slice(36), ...fmt]);
    expect((await open(turned)).frames).toBe(4);
  });

  it.each([8000, 44_100, 96_000, 192_000])("%d Hz", async (rate) => {
    expect((await open(wavFile([ramp(4)], { rate }))).rate).toBe(rate);
  });

  it.each([0, 0xffffffff])("a length that was never filled in: %d", async (saidLength) => {
    const wav = await open(wavFile([ramp(4800)], { saidLength }));
    expect(wav.frames).toBe(4800);
    expect(wav.notes).toEqual([{ code: "no length", seconds: 0.1 }]);
  });

  it("a cut of a single frame is told", async () => {
    const { notes } = await open(wavFile([ramp(48_000)]).slice(0, 44 + 3 * 47_999));
    expect(notes).toEqual([{ code: "cut", promised: 1, held: 47_999 / 48_000 }]);
  });

  it("a cut-off file is read up to the cut, and says so", async () => {
    const whole = wavFile([ramp(48_000), ramp(48_000)]);
    const wav = await open(whole.slice(0, 44 + 6 * 24_000 + 2));
    expect(wav.frames).toBe(24_000);
    expect(wav.notes).toEqual([
      { code: "cut", promised: 1, held: 0.5 },
      { code: "part frame", rest: 2 },
    ]);
  });
});

const patched = (at: number, ...bytes: number[]): Uint8Array => {
  const out = wavFile([[0.5, 0.5]], { width: 2 });
  out.set(bytes, at);
  return out;
};

describe("what is refused, and why", () => {
  const text = new TextEncoder().encode("Hello world, this is no sound file at all.");
  const cases: readonly [what: string, bytes: Uint8Array, why: WavNote][] = [
    ["an empty file", new Uint8Array(0), { code: "empty" }],
    ["a text file", text, { code: "no WAV", begins: "Hello wo", heads: WAV_HEADS }],
    ["three bytes", text.slice(0, 3), { code: "no WAV", begins: "Hel", heads: WAV_HEADS }],
    ["binary bytes", new Uint8Array(100), { code: "no WAV", begins: "........", heads: WAV_HEADS }],
    ["reversed byte order", patched(3, 88), { code: "reversed", head: "RIFX" }],
    ["another kind of RIFF", patched(8, 65, 86, 73, 32), { code: "other kind", head: "RIFF", kind: "AVI " }],
    ["a header only", wavFile([[0.5]]).slice(0, 36), { code: "no data", size: 36 }],
    ["no samples", wavFile([[]]), { code: "empty data", at: 36 }],
    [
      "no samples but a chunk behind",
      wavFile([[]], { behind: [["LIST", text]] }),
      { code: "empty data", at: 36 },
    ],
    [
      "no fmt",
      new Uint8Array([...wavFile([[1]]).slice(0, 12), ...chunk("data", text)]),
      { code: "no format" },
    ],
    [
      "a short fmt",
      new Uint8Array([...wavFile([[1]]).slice(0, 12), ...chunk("fmt ", text.slice(0, 8))]),
      { code: "short format", length: 8, least: 16 },
    ],
    ["no channels", patched(22, 0, 0), { code: "channels", channels: 0, allowed: [1, 64] }],
    ["65 channels", patched(22, 65, 0), { code: "channels", channels: 65, allowed: [1, 64] }],
    ["4 kHz", patched(24, 160, 15, 0, 0), { code: "rate", rate: 4000, allowed: [8000, 192_000] }],
    ["8 bits", patched(32, 1, 0, 8, 0), { code: "eight bits" }],
    ["frames that do not divide", wavFileWith(2, 32, 3), { code: "frame", frameBytes: 3, channels: 2 }],
    ["more bits than bytes", patched(34, 32), { code: "width", bits: 32, width: 2, coding: "integer" }],
    ["MP3 in WAV", patched(20, 85, 0), { code: "coding", tag: 85 }],
    ["A-law", patched(20, 6, 0), { code: "coding", tag: 6 }],
    ["an unknown coding", patched(20, 1, 32), { code: "coding", tag: 8193 }],
    ["somebody's own extension", ownExtension(), { code: "coding", tag: null }],
    ["thousands of chunks", manyChunks(), { code: "many chunks", most: 1000 }],
  ];
  it.each(cases)("%s", async (_, bytes, why) => {
    expect(await refusal(bytes)).toEqual(why);
    const outcome = await measureBytes(bytes, [[1, 1]]);
    expect(whyNot(outcome)).toEqual([{ code: "wav", name: "take.wav", note: why }]);
  });
});

function wavFileWith(channels: number, at: number, value: number): Uint8Array {
  const out = wavFile(Array.from({ length: channels }, () => [0.5]));
  out[at] = value;
  return out;
}
function ownExtension(): Uint8Array {
  const out = wavFile([[0.5]], { extensible: true });
  out[50] = 1;
  return out;
}
function manyChunks(): Uint8Array {
  return wavFile([[0.5]], { before: Array.from({ length: 1001 }, () => ["JUNK", new Uint8Array(0)]) });
}

describe("samples that are no audio", () => {
  it("NaN, infinities and absurd values count as silence and are counted", async () => {
    const bad = [0.5, Number.NaN, -0.25, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e300, 0.25];
    const outcome = await measureBytes(wavFile([bad], { coding: "float", width: 8 }), [[1, 1]]);
    if (outcome.kind === "refused") throw new Error(JSON.stringify(whyNot(outcome)));
    const { figures, notes } = outcome.measurement;
    expect(figures.tracks[0]).toMatchObject({ unusable: 4, silent: false });
    expect(figures.tracks[0]?.peak).toBeCloseTo(20 * Math.log10(0.5), 10);
    expect(numbersIn(figures).filter(Number.isNaN)).toEqual([]);
    expect(numbersIn(figures).length).toBeGreaterThan(40);
    expect(notes).toEqual([{ code: "unusable", name: "take.wav", count: 4 }]);
  });

  it("a single one too", async () => {
    const outcome = await measureBytes(wavFile([[0.5, Number.NaN]], { coding: "float", width: 8 }), [[1, 1]]);
    if (outcome.kind === "refused") throw new Error(JSON.stringify(whyNot(outcome)));
    expect(outcome.measurement.notes).toEqual([{ code: "unusable", name: "take.wav", count: 1 }]);
  });
});

describe("a file that goes away", () => {
  it("is said, and nothing escapes", async () => {
    const gone = new Blob([wavFile([ramp(100)])]);
    const slice = gone.slice.bind(gone);
    gone.slice = (from = 0, to = 0) => {
      if (from >= 44) throw new DOMException("gone", "NotReadableError");
      return slice(from, to);
    };
    const job = {
      inputs: [{ kind: "file", name: "x.wav", file: gone }],
      tracks: [{ input: 0, channel: 0, gains: [1, 1] }],
      align: "start",
    } as const;
    expect(whyNot(await runJob(job, () => undefined))).toEqual([{ code: "gone", name: "x.wav" }]);
  });
});

describe("a file longer than memory", () => {
  it("of 3 GB is opened by its header and refused or read in slices, never as a whole", async () => {
    const head = wavFile([[0]], { saidLength: 0xfffffff0 });
    let largest = 0;
    const huge = {
      size: 3 * 2 ** 30,
      slice: (from: number, to: number) => ({
        arrayBuffer: async () => {
          largest = Math.max(largest, to - from);
          const out = new Uint8Array(Math.min(to, 3 * 2 ** 30) - from);
          out.set(head.slice(from, to));
          return out.buffer;
        },
      }),
    } as unknown as Blob;
    const opened = await openWav(bytesOf(huge));
    expect(opened.ok && opened.wav.frames).toBe(Math.floor((3 * 2 ** 30 - 44) / 3));
    let rounds = 0;
    const stop = new Error("enough");
    const job = {
      inputs: [{ kind: "file", name: "x.wav", file: huge }],
      tracks: [{ input: 0, channel: 0, gains: [1, 1] }],
      align: "start",
    } as const;
    const outcome = await runJob(job, () => {
      rounds += 1;
      if (rounds === 3) throw stop;
    });
    expect(whyNot(outcome)).toEqual([{ code: "failed", reason: "enough" }]);
    expect(largest).toBeLessThanOrEqual(2 ** 22);
  });
});

describe("several files", () => {
  const take = (frames: number, plan: WavPlan = {}): Uint8Array => wavFile([ramp(frames)], plan);
  const run = (files: readonly Uint8Array[], align: "start" | "time" = "time") =>
    runJob(
      {
        inputs: files.map((bytes, i) => file(`${i + 1}.wav`, bytes)),
        tracks: files.map((_, input) => ({ input, channel: 0, gains: [1, 1] })),
        align,
      },
      () => undefined,
    );

  it("different rates are refused", async () => {
    expect(whyNot(await run([take(100), take(100, { rate: 44_100 })]))).toEqual([
      {
        code: "rates differ",
        files: [
          { name: "1.wav", rate: 48_000 },
          { name: "2.wav", rate: 44_100 },
        ],
      },
    ]);
  });

  it("different lengths are measured to the longest", async () => {
    const outcome = await run([take(48_000), take(24_000)]);
    expect(notesOf(outcome)).toEqual([{ code: "ends early", name: "2.wav", seconds: 0.5 }]);
    expect(outcome.kind === "done" && outcome.measurement.figures.frames).toBe(48_000);
  });

  it("a file that ends, or begins, within a step is silent outside it", async () => {
    const steady = new Float64Array(5000).fill(0.5);
    const at = 3600 * 48_000;
    const long = wavFile([new Float64Array(12_000)], { between: [["bext", bext(at)]] });
    const inside = wavFile([steady], { between: [["bext", bext(at + 3001)]] });
    const outcome = await run([inside, long]);
    const track = outcome.kind === "done" ? outcome.measurement.figures.tracks[0] : undefined;
    expect(track?.rms).toBeCloseTo(10 * Math.log10((5000 / 12_000) * 0.25), 10);
    expect(track?.offset).toBeCloseTo((5000 / 12_000) * 0.5, 12);
  });

  it("start times shift, and the bus is that of the shifted samples", async () => {
    const at = 3600 * 48_000;
    const early = wavFile([[0.25, 0.5, 0, 0]], { between: [["bext", bext(at)]] });
    const late = wavFile([[0.375, 0.125]], { between: [["bext", bext(at + 1)]] });
    const outcome = await run([early, late]);
    expect(notesOf(outcome)).toContainEqual({ code: "begins later", name: "2.wav", seconds: 1 / 48_000 });
    expect(outcome.kind === "done" && outcome.measurement.figures.mixes.left.parts).toEqual([0.5, 0.375]);
    const together = await run([early, late], "start");
    expect(together.kind === "done" && together.measurement.figures.mixes.left.parts).toEqual([0.25, 0.375]);
  });

  it("start times known for some only are not used", async () => {
    const outcome = await run([take(100, { between: [["bext", bext(99)]] }), take(100)]);
    expect(notesOf(outcome)).toEqual([{ code: "no start time", names: ["2.wav"] }]);
  });

  it("files that do not overlap by their times are refused", async () => {
    const early = take(100, { between: [["bext", bext(1000)]] });
    const late = take(100, { between: [["bext", bext(1100)]] });
    expect(whyNot(await run([early, late]))).toEqual([{ code: "apart", name: "2.wav" }]);
  });

  it("a channel that is not there is refused", async () => {
    expect(
      whyNot(
        await measureBytes(take(10), [
          [1, 1],
          [1, 1],
        ]),
      ),
    ).toEqual([{ code: "no such channel", name: "take.wav", channel: 1, channels: 1 }]);
  });
});
