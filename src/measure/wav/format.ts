import { type Result, refused } from "../../core/lib/result";
import type { WavNote } from "../../text/sound-files";

/** How the samples of a file lie. */
export interface Format {
  readonly coding: "integer" | "float";
  /** Bytes of one sample of one channel. */
  readonly width: 2 | 3 | 4 | 8;
  /** Bits that are used of them. */
  readonly bits: number;
  readonly channels: number;
  /** Frames a second. */
  readonly rate: number;
}

/** The format, or why it cannot be read. */
export type ReadFormat = Result<{ format: Format }, WavNote>;

/** Frames a second and channels of what can be measured, from the least to the most. */
export const MEASURABLE = { rate: [8000, 192_000], channels: [1, 64] } as const;
const INTEGER = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
const SHORTEST = 16;
const EXTENSIBLE_LENGTH = 40;
const SUBFORMAT_AT = 24;
/** Behind the format number in the sub-format of WAVE_FORMAT_EXTENSIBLE; anything else is somebody's own coding. */
const SUBFORMAT_TAIL = [0, 0, 0, 0, 16, 0, 128, 0, 0, 170, 0, 56, 155, 113];

const allowed = ([least, most]: readonly [number, number], value: number): boolean =>
  value >= least && value <= most;

/** The coding's number, looked up in the extension where there is one; null where the extension is none that is known. */
const tagOf = (content: Uint8Array, data: DataView): number | null => {
  const tag = data.getUint16(0, true);
  if (tag !== EXTENSIBLE) return tag;
  if (content.length < EXTENSIBLE_LENGTH) return null;
  const tail = content.subarray(SUBFORMAT_AT + 2, EXTENSIBLE_LENGTH);
  return SUBFORMAT_TAIL.every((byte, i) => tail[i] === byte) ? data.getUint16(SUBFORMAT_AT, true) : null;
};

const refuseWidth = (coding: Format["coding"], bits: number, width: number): ReadFormat => {
  if (coding === "integer" && width === 1) return refused({ code: "eight bits" });
  return refused({ code: "width", bits, width, coding });
};

/**
 * Reads the content of a fmt chunk. Samples of fewer bits than their bytes hold are taken as left-justified,
 * as the format asks: 24 bits in 32 have the full scale of 32.
 */
export const readFormat = (content: Uint8Array): ReadFormat => {
  if (content.length < SHORTEST)
    return refused({ code: "short format", length: content.length, least: SHORTEST });
  const data = new DataView(content.buffer, content.byteOffset, content.byteLength);
  const tag = tagOf(content, data);
  if (tag !== INTEGER && tag !== FLOAT) return refused({ code: "coding", tag });
  const coding = tag === INTEGER ? "integer" : "float";
  const channels = data.getUint16(2, true);
  const rate = data.getUint32(4, true);
  const frameBytes = data.getUint16(12, true);
  const bits = data.getUint16(14, true);
  if (!allowed(MEASURABLE.channels, channels))
    return refused({ code: "channels", channels, allowed: MEASURABLE.channels });
  if (!allowed(MEASURABLE.rate, rate)) return refused({ code: "rate", rate, allowed: MEASURABLE.rate });
  if (frameBytes % channels !== 0) return refused({ code: "frame", frameBytes, channels });
  const width = frameBytes / channels;
  const fits =
    coding === "integer" ? [2, 3, 4].includes(width) : [4, 8].includes(width) && bits === width * 8;
  if (!fits || bits > width * 8 || bits <= 8) return refuseWidth(coding, bits, width);
  return { ok: true, format: { coding, width: width as Format["width"], bits, channels, rate } };
};
