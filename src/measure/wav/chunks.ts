import { type Result, refused } from "../../core/lib/result";
import type { WavNote } from "../../text/sound-files";
import type { Bytes } from "../bytes";

/** One chunk of a RIFF file. */
export interface Chunk {
  readonly id: string;
  /** Where its content begins. */
  readonly at: number;
  /** Length of its content as the file says, with the 64-bit table taken into account; null where it is left open. */
  readonly size: number | null;
}

/** The chunks of a file in their order, or why it is none. */
export type Chunks = Result<{ chunks: readonly Chunk[] }, WavNote>;

/** What WAV files begin with. */
export const WAV_HEADS: readonly string[] = ["RIFF", "RF64", "BW64"];
/** The same with the byte order reversed; not read. */
export const REVERSED_HEAD = "RIFX";
/** No sound file has more; a hostile one may. */
const MOST_CHUNKS = 1000;
/** A 32-bit length that says: look in the 64-bit table (RF64, BW64), or: was never filled in. */
const OPEN = 0xffffffff;
const HEAD = 12;
const CHUNK_HEAD = 8;
/** Fixed part of the ds64 chunk: file size, data size, frames, entries of the table. EBU Tech 3306. */
const DS64_FIXED = 28;
const DS64_ENTRY = 12;

const view = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Four bytes as letters; what is no letter becomes a full stop. */
const letters = (bytes: Uint8Array, at: number): string =>
  Array.from(bytes.subarray(at, at + 4), (b) => (b >= 0x20 && b < 0x7f ? String.fromCharCode(b) : ".")).join(
    "",
  );

/** 64-bit length; beyond 2^53 digits are lost, but no file is that long. */
const long = (data: DataView, at: number): number =>
  data.getUint32(at, true) + data.getUint32(at + 4, true) * 2 ** 32;

/** Lengths of the chunks that are too long for 32 bits, by id. */
const longSizes = async (bytes: Bytes, at: number, size: number): Promise<Map<string, number>> => {
  const content = await bytes.read(at, Math.min(size, DS64_FIXED + MOST_CHUNKS * DS64_ENTRY));
  const sizes = new Map<string, number>();
  if (content.length < DS64_FIXED) return sizes;
  const data = view(content);
  sizes.set("data", long(data, 8));
  const entries = data.getUint32(24, true);
  for (let i = 0; i < entries; i += 1) {
    const entry = DS64_FIXED + i * DS64_ENTRY;
    if (entry + DS64_ENTRY > content.length) break;
    sizes.set(letters(content, entry), long(data, entry + 4));
  }
  return sizes;
};

/** What a file that is no WAV begins with, so that it can be recognised. */
const refuseHead = (bytes: Uint8Array): WavNote => {
  const head = letters(bytes, 0);
  if (head === REVERSED_HEAD) return { code: "reversed", head };
  if (WAV_HEADS.includes(head)) return { code: "other kind", head, kind: letters(bytes, 8) };
  return { code: "no WAV", begins: head + letters(bytes, 4), heads: WAV_HEADS };
};

/** Lists the chunks of a RIFF, RF64 or BW64 file. Reads their heads only. */
export const listChunks = async (bytes: Bytes): Promise<Chunks> => {
  if (bytes.size === 0) return refused({ code: "empty" });
  const head = await bytes.read(0, HEAD);
  const id = letters(head, 0);
  if (!WAV_HEADS.includes(id) || letters(head, 8) !== "WAVE") return refused(refuseHead(head));
  let sizes = new Map<string, number>();
  const chunks: Chunk[] = [];
  let at = HEAD;
  while (at + CHUNK_HEAD <= bytes.size) {
    if (chunks.length === MOST_CHUNKS) return refused({ code: "many chunks", most: MOST_CHUNKS });
    const top = await bytes.read(at, CHUNK_HEAD);
    if (top.length < CHUNK_HEAD) break;
    const name = letters(top, 0);
    const said = view(top).getUint32(4, true);
    const size = said === OPEN ? (sizes.get(name) ?? null) : said;
    at += CHUNK_HEAD;
    chunks.push({ id: name, at, size });
    if (size === null) break;
    if (name === "ds64") sizes = await longSizes(bytes, at, size);
    at += size + (size % 2);
  }
  return { ok: true, chunks };
};
