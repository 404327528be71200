import { type Result, refused } from "../core/lib/result";
import type { SoundFileNote } from "../text/sound-files";
import { isNamedWav } from "./kinds";
import type { Input, Look } from "./protocol";
import { REVERSED_HEAD, WAV_HEADS } from "./wav/chunks";
import { MEASURABLE } from "./wav/format";

/** An input ready for a job, or why it is none. */
export type Prepared = Result<{ input: Input }, SoundFileNote>;

/** What makes audio of a whole compressed file: an audio context, or a stand-in in a test. */
export interface Decoder {
  readonly sampleRate: number;
  readonly decodeAudioData: (data: ArrayBuffer) => Promise<AudioBuffer>;
}

/** What a file is prepared with. */
export interface DecodePlatform {
  /** Looks at a compressed file without decoding it. */
  readonly look: (file: Blob) => Promise<Look>;
  /** Asked for only where a file has to be decoded as a whole. */
  readonly decoder: () => Decoder;
}

/** Bytes that a file may unpack to where it can be decoded only as a whole. */
const LARGEST_DECODED = 2 ** 27;
/** Hours that a compressed file may last: nobody records longer, and figures over time grow with it. */
const LONGEST_HOURS = 24;
/** What has one of these at its beginning goes to the reader of WAV files: it reads it, or knows what to say of it. */
const HEADS: readonly string[] = [...WAV_HEADS, REVERSED_HEAD];
/** Plain samples of eight bits become four times as large; four bits of the oldest codings in AIFF eight times. */
const MOST_GROWTH = 8;

const hasPlainHead = (head: string): boolean =>
  /^FORM....AIF[FC]/s.test(head) || /^caff.{24}lpcm/s.test(head);

const headOf = async (file: Blob): Promise<string> =>
  String.fromCharCode(...new Uint8Array(await file.slice(0, 32).arrayBuffer()));

const unknown = (name: string): Prepared => refused({ code: "unknown", name });

/** Decodes a file as a whole, if that is not too much. @param bytes most that it can unpack to */
const decodeWhole = async (file: File, bytes: number, decoder: () => Decoder): Promise<Prepared> => {
  const { name } = file;
  if (bytes > LARGEST_DECODED) return refused({ code: "large", name, bytes, most: LARGEST_DECODED });
  const audio = await decoder().decodeAudioData(await file.arrayBuffer());
  const channels = Array.from({ length: audio.numberOfChannels }, (_, i) => audio.getChannelData(i));
  return { ok: true, input: { kind: "decoded", name, rate: audio.sampleRate, channels } };
};

const isWithin = ([least, most]: readonly [number, number], value: number): boolean =>
  value >= least && value <= most;

/** Why a compressed file cannot be measured, whoever decodes it; null where it can. */
const refusal = (
  name: string,
  { rate, channels, frames }: Extract<Look, { kind: "sound" }>,
): SoundFileNote | null => {
  if (!isWithin(MEASURABLE.rate, rate)) return { code: "rate", name, rate, allowed: MEASURABLE.rate };
  if (!isWithin(MEASURABLE.channels, channels))
    return { code: "channels", name, channels, allowed: MEASURABLE.channels };
  const hours = frames / rate / 3600;
  return hours > LONGEST_HOURS ? { code: "long", name, hours, most: LONGEST_HOURS } : null;
};

const prepareCompressed = async (file: File, { look, decoder }: DecodePlatform): Promise<Prepared> => {
  const { name } = file;
  const found = await look(file);
  if (found.kind === "unknown") {
    const isPlain = hasPlainHead(await headOf(file));
    return isPlain ? await decodeWhole(file, file.size * MOST_GROWTH, decoder) : unknown(name);
  }
  if (found.kind === "gone") return refused({ code: "gone", name });
  if (found.kind === "late") return refused({ code: "looked at too long", name, seconds: found.seconds });
  if (found.kind === "failed") return refused({ code: "looked at in vain", name, trouble: found.trouble });
  const why = refusal(name, found);
  if (why) return refused(why);
  const { rate, channels, frames, promised, inPieces } = found;
  if (inPieces)
    return { ok: true, input: { kind: "compressed", name, file, rate, channels, frames, promised } };
  const bytes = channels * (frames / rate) * decoder().sampleRate * Float32Array.BYTES_PER_ELEMENT;
  return decodeWhole(file, bytes, decoder);
};

/**
 * Makes an input of a chosen file. WAV goes to the worker as it is; anything else is looked at there, and decoded there
 * in pieces where the platform can. Where it cannot, what does not unpack to too much is decoded as a whole, which also
 * brings it to the decoder's rate; measuring it says so.
 */
export const prepareInput = async (file: File, platform: DecodePlatform): Promise<Prepared> => {
  try {
    if (isNamedWav(file.name) || HEADS.includes((await headOf(file)).slice(0, 4)))
      return { ok: true, input: { kind: "file", name: file.name, file } };
    return await prepareCompressed(file, platform);
  } catch {
    return unknown(file.name);
  }
};
