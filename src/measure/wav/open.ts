import { type Result, refused } from "../../core/lib/result";
import type { Seconds } from "../../core/model/units";
import type { WavNote } from "../../text/sound-files";
import type { Bytes } from "../bytes";
import { type Chunk, listChunks } from "./chunks";
import { type Format, readFormat } from "./format";

/** A WAV file ready to be read. */
export interface Wav extends Format {
  /** Where the samples begin. */
  readonly dataAt: number;
  /** Whole frames that are really there. */
  readonly frames: number;
  /** Frames since midnight at which the recording began (the time reference of a Broadcast Wave file); null without. */
  readonly began: number | null;
  /** What is to be said of the file: cut off, length not filled in. */
  readonly notes: readonly WavNote[];
}

/** The file, or why it is refused. */
export type OpenedWav = Result<{ wav: Wav }, WavNote>;

/** No fmt chunk is longer; what is behind is of no use here. */
const FORMAT_BYTES = 64;
/** Place and length of the time reference in a bext chunk. EBU Tech 3285, 2.3. */
const REFERENCE_AT = 338;
const REFERENCE_BYTES = 8;

/** The time reference of a bext chunk. 0 is what programs write that know no time. */
const readReference = async (bytes: Bytes, chunk: Chunk | undefined): Promise<number | null> => {
  if (!chunk || chunk.size === null || chunk.size < REFERENCE_AT + REFERENCE_BYTES) return null;
  const content = await bytes.read(chunk.at + REFERENCE_AT, REFERENCE_BYTES);
  if (content.length < REFERENCE_BYTES) return null;
  const data = new DataView(content.buffer, content.byteOffset, REFERENCE_BYTES);
  const frames = data.getUint32(0, true) + data.getUint32(4, true) * 2 ** 32;
  return frames === 0 ? null : frames;
};

/** Bytes of samples that are really there, and what is to be said of them. */
const measureData = (
  data: Chunk,
  behind: boolean,
  bytes: Bytes,
  format: Format,
): { length: number; notes: WavNote[] } => {
  const there = Math.max(0, bytes.size - data.at);
  const seconds = (length: number): Seconds =>
    Math.floor(length / (format.width * format.channels)) / format.rate;
  // A recorder that was not closed leaves 0 or an open length; an empty chunk is followed by another.
  if (data.size === null || (data.size === 0 && there > 0 && !behind)) {
    return { length: there, notes: [{ code: "no length", seconds: seconds(there) }] };
  }
  if (data.size <= there) return { length: data.size, notes: [] };
  return { length: there, notes: [{ code: "cut", promised: seconds(data.size), held: seconds(there) }] };
};

/** Whether a chunk behind an empty data chunk looks like one: then the data chunk is really empty. */
const fitsBehind = (data: Chunk, chunks: readonly Chunk[], bytes: Bytes): boolean => {
  const next = chunks[chunks.indexOf(data) + 1];
  return (
    next?.size != null &&
    /^[ -~]{4}$/.test(next.id) &&
    !next.id.includes(".") &&
    next.at + next.size <= bytes.size
  );
};

/**
 * Opens a WAV file: RIFF, RF64 or BW64, chunks in any order, without reading its samples.
 *
 * A reader of our own and not a library, on purpose: `test/bench/measure.md` compares what both read and how large they
 * are.
 */
export const openWav = async (bytes: Bytes): Promise<OpenedWav> => {
  const list = await listChunks(bytes);
  if (!list.ok) return list;
  const find = (id: string): Chunk | undefined => list.chunks.find((c) => c.id === id);
  const fmt = find("fmt ");
  const data = find("data");
  if (!fmt) return refused({ code: "no format" });
  const read = readFormat(await bytes.read(fmt.at, Math.min(fmt.size ?? FORMAT_BYTES, FORMAT_BYTES)));
  if (!read.ok) return read;
  if (!data) return refused({ code: "no data", size: bytes.size });
  const { format } = read;
  const { length, notes } = measureData(data, fitsBehind(data, list.chunks, bytes), bytes, format);
  const frameBytes = format.width * format.channels;
  const frames = Math.floor(length / frameBytes);
  if (frames === 0) return refused({ code: "empty data", at: data.at - 8 });
  const rest = length - frames * frameBytes;
  if (rest > 0) notes.push({ code: "part frame", rest });
  const began = await readReference(bytes, find("bext"));
  return { ok: true, wav: { ...format, dataAt: data.at, frames, began, notes } };
};
