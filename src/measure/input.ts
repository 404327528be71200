import { quoted } from "../core/lib/direction";
import { bytesOf } from "./bytes";
import type { Input } from "./protocol";
import { slicesOf } from "./slices";
import { plainUnpack24, type Slice, sliceOf, type Unpack24 } from "./wav/decode";
import { openWav } from "./wav/open";

/** Frames that were read. */
export interface ReadSlice extends Slice {
  /** Gives their memory back for what is read next; nothing can be decoded afterwards. */
  readonly release: () => void;
}

/** An input that is ready to be read frame by frame. */
export interface OpenInput {
  readonly name: string;
  readonly rate: number;
  readonly channels: number;
  readonly frames: number;
  /** Bytes that one frame takes while it is read. */
  readonly frameBytes: number;
  /** Frames since midnight at which it began; null where nobody knows. */
  readonly began: number | null;
  readonly notes: readonly string[];
  /** Reads frames that exist. Rejects with a sentence when the file has gone. */
  readonly read: (frame: number, count: number) => Promise<ReadSlice>;
  /** Lets go of the file; it can be read again. */
  readonly close: () => void;
}

/** An open input, or the sentence why it is none. */
export type Opened =
  | { readonly ok: true; readonly open: OpenInput }
  | { readonly ok: false; readonly why: string };

const fromFile = async (name: string, file: Blob, unpack24: Unpack24): Promise<Opened> => {
  const bytes = bytesOf(file);
  const opened = await openWav(bytes);
  if (!opened.ok) return { ok: false, why: `${quoted(name)} ${opened.why}.` };
  const { wav } = opened;
  const slices = slicesOf(file);
  const frameBytes = wav.width * wav.channels;
  const read: OpenInput["read"] = async (frame, count) => {
    const got = await slices.read(wav.dataAt + frame * frameBytes, count * frameBytes);
    if (got.length < count * frameBytes) throw new Error("it became shorter");
    return { ...sliceOf(wav, got, unpack24), release: () => slices.giveBack(got) };
  };
  const notes = wav.notes.map((note) => `${quoted(name)} ${note}.`);
  const { rate, channels, frames, began } = wav;
  return {
    ok: true,
    open: { name, rate, channels, frames, frameBytes, began, notes, read, close: slices.close },
  };
};

const fromDecoded = (input: Extract<Input, { kind: "decoded" }>): Opened => {
  const { name, rate, channels } = input;
  const frames = channels[0]?.length ?? 0;
  if (frames === 0) return { ok: false, why: `${quoted(name)} holds no audio.` };
  const read: OpenInput["read"] = async (start) => ({
    decode: (channel, frame, count, out, at) =>
      out.set((channels[channel] as Float32Array).subarray(start + frame, start + frame + count), at),
    release: () => undefined,
  });
  return {
    ok: true,
    open: {
      name,
      rate,
      channels: channels.length,
      frames,
      frameBytes: channels.length * Float32Array.BYTES_PER_ELEMENT,
      began: null,
      notes: [
        `${quoted(name)} was decoded by the browser at ${rate} Hz; its peaks may differ a little from the original’s.`,
      ],
      read,
      close: () => undefined,
    },
  };
};

/** Opens an input: its header is read, its samples are not. Never rejects. */
export const openInput = async (input: Input, unpack24 = plainUnpack24): Promise<Opened> => {
  if (input.kind === "decoded") return fromDecoded(input);
  try {
    return await fromFile(input.name, input.file, unpack24);
  } catch {
    return { ok: false, why: goneSentence(input.name) };
  }
};

/** What is said when a chosen file cannot be read any more. */
export const goneSentence = (name: string): string =>
  `${quoted(name)} could not be read: it was moved, changed or removed after it was chosen. Choose it again.`;
