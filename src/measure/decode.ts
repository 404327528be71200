import { quoted } from "../core/lib/direction";
import { isNamedWav } from "./kinds";
import type { Input } from "./protocol";
import { REVERSED_HEAD, WAV_HEADS } from "./wav/chunks";

/** An input ready for a job, or the sentence why it is none. */
export type Prepared =
  | { readonly ok: true; readonly input: Input }
  | { readonly ok: false; readonly why: string };

/** What makes audio of a compressed file: an audio context, or a stand-in in a test. */
export interface Decoder {
  readonly sampleRate: number;
  readonly decodeAudioData: (data: ArrayBuffer) => Promise<AudioBuffer>;
}

/** A decoded file lies in memory as a whole, about ten times as large as it was. */
const LARGEST_COMPRESSED = 32 * 2 ** 20;
/** What has one of these at its beginning goes to the reader of WAV files: it reads it, or knows what to say of it. */
const HEADS: readonly string[] = [...WAV_HEADS, REVERSED_HEAD];

/** Whole megabytes, a begun one counted: what is over the limit never prints as the limit. */
const megabytes = (bytes: number): number => Math.ceil(bytes / 2 ** 20);

const beginsLikeWav = async (file: Blob): Promise<boolean> => {
  const head = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  return HEADS.includes(String.fromCharCode(...head));
};

/**
 * Makes an input of a chosen file. WAV goes to the worker as it is; anything else is decoded by the browser,
 * which also brings it to the decoder's rate; measuring it says so.
 * @param decoder asked for only when a file is no WAV
 */
export const prepareInput = async (file: File, decoder: () => Decoder): Promise<Prepared> => {
  const { name } = file;
  try {
    if (isNamedWav(name) || (await beginsLikeWav(file)))
      return { ok: true, input: { kind: "file", name, file } };
    if (file.size > LARGEST_COMPRESSED) {
      return {
        ok: false,
        why: `${quoted(name)} is compressed and ${megabytes(file.size)} MB large; up to ${megabytes(LARGEST_COMPRESSED)} MB can be decoded here. Export it as WAV.`,
      };
    }
    const audio = await decoder().decodeAudioData(await file.arrayBuffer());
    const channels = Array.from({ length: audio.numberOfChannels }, (_, i) => audio.getChannelData(i));
    return { ok: true, input: { kind: "decoded", name, rate: audio.sampleRate, channels } };
  } catch {
    return {
      ok: false,
      why: `${quoted(name)} is neither WAV nor a sound file that this browser can decode. Export it as WAV.`,
    };
  }
};
