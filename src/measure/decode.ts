import { quoted } from "../core/lib/direction";
import { type Result, refused } from "../core/lib/result";
import { goneSentence } from "./facts";
import { isNamedWav } from "./kinds";
import type { Input, Look } from "./protocol";
import { REVERSED_HEAD, WAV_HEADS } from "./wav/chunks";
import { MEASURABLE } from "./wav/format";

/** An input ready for a job, or the sentence why it is none. */
export type Prepared = Result<{ input: Input }>;

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

/** Whole megabytes, a begun one counted: what is over the limit never prints as the limit. */
const megabytes = (bytes: number): number => Math.ceil(bytes / 2 ** 20);

const refuse = (name: string, why: string): Prepared => refused(`${quoted(name)} ${why}`);

const unknown = (name: string): Prepared =>
  refuse(name, "is neither WAV nor a sound file that this browser can decode. Export it as WAV.");

/** Decodes a file as a whole, if that is not too much. @param bytes most that it can unpack to */
const decodeWhole = async (file: File, bytes: number, decoder: () => Decoder): Promise<Prepared> => {
  const { name } = file;
  if (bytes > LARGEST_DECODED)
    return refuse(
      name,
      `unpacks to ${megabytes(bytes)} MB and can only be decoded as a whole in this browser; up to ${megabytes(LARGEST_DECODED)} MB can be. Export it as WAV.`,
    );
  const audio = await decoder().decodeAudioData(await file.arrayBuffer());
  const channels = Array.from({ length: audio.numberOfChannels }, (_, i) => audio.getChannelData(i));
  return { ok: true, input: { kind: "decoded", name, rate: audio.sampleRate, channels } };
};

const isWithin = ([least, most]: readonly [number, number], value: number): boolean =>
  value >= least && value <= most;

/** Why a compressed file cannot be measured, whoever decodes it; null where it can. */
const refusal = ({ rate, channels, frames }: Extract<Look, { kind: "sound" }>): string | null => {
  if (!isWithin(MEASURABLE.rate, rate))
    return `has a rate of ${rate} Hz; ${MEASURABLE.rate.join(" to ")} Hz can be measured.`;
  if (!isWithin(MEASURABLE.channels, channels))
    return `has ${channels} channels; ${MEASURABLE.channels.join(" to ")} can be measured.`;
  const hours = frames / rate / 3600;
  return hours > LONGEST_HOURS
    ? `lasts ${Math.ceil(hours)} hours; up to ${LONGEST_HOURS} hours can be measured. Cut it.`
    : null;
};

const prepareCompressed = async (file: File, { look, decoder }: DecodePlatform): Promise<Prepared> => {
  const { name } = file;
  const found = await look(file);
  if (found.kind === "unknown") {
    const isPlain = hasPlainHead(await headOf(file));
    return isPlain ? await decodeWhole(file, file.size * MOST_GROWTH, decoder) : unknown(name);
  }
  if (found.kind === "gone") return refused(goneSentence(name));
  if (found.kind === "failed") return refuse(name, `could not be read. ${found.why}`);
  const why = refusal(found);
  if (why) return refuse(name, why);
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
