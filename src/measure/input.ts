import type { Result } from "../core/lib/result";
import type { SoundFileNote } from "../text/sound-files";
import { factsOfWav, type InputFacts, readFacts, readHead, SoundFileFault } from "./facts";
import type { Input } from "./protocol";
import { slicesOf } from "./slices";
import { plainUnpack24, type Slice, sliceOf, type Unpack24 } from "./wav/decode";

/** Frames that were read. */
export interface ReadSlice extends Slice {
  /** Gives their memory back for what is read next; nothing can be decoded afterwards. */
  readonly release: () => void;
}

/** Reads an input frame by frame. */
export interface FrameReader {
  /** Reads frames that exist. Rejects with a `SoundFileFault`. */
  readonly read: (frame: number, count: number) => Promise<ReadSlice>;
  /** Lets go of the file; it can be read again. */
  readonly close: () => void;
}

/** An input that is ready to be read frame by frame. */
export interface OpenInput extends InputFacts, FrameReader {
  /** Bytes that one frame takes while it is read. */
  readonly frameBytes: number;
}

/** An open input, or why it is none. */
export type OpenedInput = Result<{ open: OpenInput }, SoundFileNote>;

const fromFile = async (name: string, file: Blob, unpack24: Unpack24): Promise<OpenedInput> => {
  const head = await readHead(name, file);
  if (!head.ok) return head;
  const { wav } = head;
  const slices = slicesOf(file);
  const frameBytes = wav.width * wav.channels;
  const read: FrameReader["read"] = async (frame, count) => {
    const got = await slices.read(wav.dataAt + frame * frameBytes, count * frameBytes).catch(() => null);
    if (!got || got.length < count * frameBytes) throw new SoundFileFault({ code: "gone", name });
    return { ...sliceOf(wav, got, unpack24), release: () => slices.giveBack(got) };
  };
  return { ok: true, open: { ...factsOfWav(name, wav), frameBytes, read, close: slices.close } };
};

const readerOfDecoded = (channels: readonly Float32Array[]): FrameReader => ({
  read: async (start) => ({
    decode: (channel, frame, count, out, at) =>
      out.set((channels[channel] as Float32Array).subarray(start + frame, start + frame + count), at),
    release: () => undefined,
  }),
  close: () => undefined,
});

/** Opens an input: its header is read, its samples are not. Never rejects. */
export const openInput = async (input: Input, unpack24 = plainUnpack24): Promise<OpenedInput> => {
  if (input.kind === "file") return fromFile(input.name, input.file, unpack24);
  const read = await readFacts(input);
  if (!read.ok) return read;
  const frameBytes = read.facts.channels * Float32Array.BYTES_PER_ELEMENT;
  const reader =
    input.kind === "decoded"
      ? readerOfDecoded(input.channels)
      : (await import("./compressed")).readerOfCompressed(input);
  return { ok: true, open: { ...read.facts, frameBytes, ...reader } };
};
