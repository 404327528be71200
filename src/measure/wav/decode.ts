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

const SCALE_24 = 2 ** -23;
const SCALE_24_TOP = 2 ** -31;

/** 24-bit samples, byte by byte: the top byte's sign comes by being shifted to the top of a 32-bit word. */
const bytewise = (
  bytes: Uint8Array,
  channels: number,
  [channel, frame, count, out, at]: Parameters<Slice["decode"]>,
): void => {
  const stride = 3 * channels;
  for (let i = 0, from = frame * stride + 3 * channel; i < count; i += 1, from += stride) {
    const word =
      ((bytes[from] as number) << 8) |
      ((bytes[from + 1] as number) << 16) |
      ((bytes[from + 2] as number) << 24);
    out[at + i] = word * SCALE_24_TOP;
  }
};

/** 24-bit samples of one channel, four of them from three 32-bit words. */
const wordwise = (words: Int32Array, first: number, fours: number, out: Float64Array, at: number): void => {
  for (let i = 0, from = first, to = at; i < fours; i += 1, from += 3, to += 4) {
    const a = words[from] as number;
    const b = words[from + 1] as number;
    const c = words[from + 2] as number;
    out[to] = ((a << 8) >> 8) * SCALE_24;
    out[to + 1] = (((b << 16) | (a >>> 16)) >> 8) * SCALE_24;
    out[to + 2] = (((c << 24) | (b >>> 8)) >> 8) * SCALE_24;
    out[to + 3] = (c >> 8) * SCALE_24;
  }
};

const packed24 = (bytes: Uint8Array, channels: number): Slice["decode"] => {
  if (channels > 1) return (...what) => bytewise(bytes, channels, what);
  const words = new Int32Array(bytes.buffer, bytes.byteOffset, Math.floor(bytes.length / 4));
  return (channel, frame, count, out, at) => {
    const fours = frame % 4 === 0 ? Math.floor(count / 4) : 0;
    wordwise(words, (frame / 4) * 3, fours, out, at);
    const done = fours * 4;
    bytewise(bytes, channels, [channel, frame + done, count - done, out, at + done]);
  };
};

/** A slice that begins with a whole frame, as samples. Whole 32-bit words and doubles are little-endian on all that runs this. */
export const sliceOf = (format: Format, read: Uint8Array): Slice => {
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
  if (format.width === 3) return { decode: packed24(bytes, channels) };
  return {
    decode:
      format.width === 2
        ? plain(new Int16Array(buffer, byteOffset, whole), channels, 2 ** -15)
        : plain(new Int32Array(buffer, byteOffset, whole), channels, 2 ** -31),
  };
};
