import type { Format } from "./format";

/** Samples of one slice of a file, as they lie in bytes. */
export interface Slice {
  /**
   * Writes samples of one channel, full scale 1, to `out` from index `at` on.
   * @param frame first frame, counted from the beginning of the slice
   */
  readonly decode: (channel: number, frame: number, count: number, out: Float64Array, at: number) => void;
}

type Numbers = Int16Array | Int32Array | Float32Array | Float64Array;

const plain =
  (numbers: Numbers, channels: number, scale: number): Slice["decode"] =>
  (channel, frame, count, out, at) => {
    for (let i = 0, from = frame * channels + channel; i < count; i += 1, from += channels)
      out[at + i] = (numbers[from] as number) * scale;
  };

/** Top of a 32-bit word, into which a 24-bit sample is shifted for its sign. */
const SCALE_24_TOP = 2 ** -31;

/**
 * Writes 24-bit samples that lie one after the other, full scale 1, to `out` from index `at` on. Where it is one of the
 * loops of a measurement, `out` lies in their memory.
 */
export type Unpack24 = (out: Float64Array, at: number, bytes: Uint8Array) => void;

/** 24-bit samples, byte by byte. */
const bytewise = (bytes: Uint8Array, first: number, stride: number, out: Float64Array, at: number): void => {
  for (let from = first, to = at; from < bytes.length; from += stride, to += 1) {
    const word =
      ((bytes[from] as number) << 8) |
      ((bytes[from + 1] as number) << 16) |
      ((bytes[from + 2] as number) << 24);
    out[to] = word * SCALE_24_TOP;
  }
};

/** Four samples at a time, which are three 32-bit words. */
const wordwise = (words: Int32Array, out: Float64Array, at: number): void => {
  for (let from = 0, to = at; from < words.length; from += 3, to += 4) {
    const a = words[from] as number;
    const b = words[from + 1] as number;
    const c = words[from + 2] as number;
    out[to] = (a << 8) * SCALE_24_TOP;
    out[to + 1] = ((b << 16) | ((a >>> 16) & 0xff00)) * SCALE_24_TOP;
    out[to + 2] = ((c << 24) | ((b >>> 8) & 0xffff00)) * SCALE_24_TOP;
    out[to + 3] = (c & ~0xff) * SCALE_24_TOP;
  }
};

/** In plain code. Words can only be looked at where they begin at a multiple of their length. */
export const plainUnpack24: Unpack24 = (out, at, bytes) => {
  const fours = bytes.byteOffset % 4 === 0 ? Math.floor(bytes.length / 12) : 0;
  wordwise(new Int32Array(bytes.buffer, fours === 0 ? 0 : bytes.byteOffset, 3 * fours), out, at);
  bytewise(bytes, 12 * fours, 3, out, at + 4 * fours);
};

const packed24 =
  (bytes: Uint8Array, channels: number, unpack24: Unpack24): Slice["decode"] =>
  (channel, frame, count, out, at) => {
    const stride = 3 * channels;
    const part = bytes.subarray(frame * stride, (frame + count) * stride);
    if (channels === 1) unpack24(out, at, part);
    else bytewise(part, 3 * channel, stride, out, at);
  };

/** A slice that begins with a whole frame, as samples. Whole 32-bit words and doubles are little-endian on all that runs this. */
export const sliceOf = (format: Format, read: Uint8Array, unpack24 = plainUnpack24): Slice => {
  // Words can only be looked at where they begin at a multiple of their length.
  const bytes = read.byteOffset % 8 === 0 ? read : read.slice();
  const whole = Math.floor(bytes.length / format.width);
  const { buffer, byteOffset } = bytes;
  const { channels } = format;
  if (format.coding === "float")
    return {
      decode:
        format.width === 4
          ? plain(new Float32Array(buffer, byteOffset, whole), channels, 1)
          : plain(new Float64Array(buffer, byteOffset, whole), channels, 1),
    };
  if (format.width === 3) return { decode: packed24(bytes, channels, unpack24) };
  return {
    decode:
      format.width === 2
        ? plain(new Int16Array(buffer, byteOffset, whole), channels, 2 ** -15)
        : plain(new Int32Array(buffer, byteOffset, whole), channels, 2 ** -31),
  };
};
