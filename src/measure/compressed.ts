import {
  ADTS,
  type AudioSample,
  AudioSampleSink,
  BlobSource,
  EncodedPacketSink,
  FLAC,
  type InputAudioTrack,
  Input as Media,
  MP3,
  MP4,
  OGG,
} from "mediabunny";
import { SoundFileFault } from "./facts";
import type { FrameReader } from "./input";
import type { CompressedInput, Look } from "./protocol";

/** Bytes of a file that are kept while it is read. */
const CACHE_BYTES = 2 ** 20;

/** Something that lets go of its file when it is disposed of. */
interface Opened {
  readonly media: Media;
  readonly track: InputAudioTrack;
}

/** The file has gone, as the browser names it when it is read. */
const isGone = (error: unknown): boolean =>
  error instanceof DOMException && ["NotFoundError", "NotReadableError"].includes(error.name);

/** The audio of a compressed file; null where it is none that is known. Rejects where the file has gone. */
const openTrack = async (file: Blob): Promise<Opened | null> => {
  const channel = new BlobSource(file, { maxCacheSize: CACHE_BYTES });
  const media = new Media({ source: channel, formats: [FLAC, MP3, MP4, ADTS, OGG] });
  try {
    const track = await media.getPrimaryAudioTrack();
    if (track) return { media, track };
  } catch (error) {
    media.dispose();
    // Else it is not of the formats, or broken in its head.
    if (isGone(error)) throw error;
    return null;
  }
  media.dispose();
  return null;
};

/** Rate and channels as the platform's decoder puts them out; null where it cannot decode in pieces. */
const tryDecoder = async (
  track: InputAudioTrack,
): Promise<Pick<AudioSample, "sampleRate" | "numberOfChannels"> | null> => {
  try {
    if (!(await track.canDecode())) return null;
    // Not the sample at one time: what a coder overlaps comes out only with the packet after the first.
    for await (const sample of new AudioSampleSink(track).samples()) {
      const { sampleRate, numberOfChannels } = sample;
      sample.close();
      return { sampleRate, numberOfChannels };
    }
    return null;
  } catch {
    return null;
  }
};

/** Length by a header that is exact; that of an MP3 file may be guessed from its size. */
const promisedSeconds = async (media: Media, track: InputAudioTrack): Promise<number | null> =>
  (await media.getFormat()) === FLAC ? track.getDurationFromMetadata() : null;

/**
 * Looks at a compressed file: rate, channels, length by going through the heads of all its packets, so that a header
 * that lies does not matter; and whether it can be decoded in pieces here. Nothing of it is kept. Never rejects.
 */
export const lookAt = async (file: Blob): Promise<Look> => {
  let media: Media | null = null;
  try {
    const opened = await openTrack(file);
    if (!opened) return { kind: "unknown" };
    const { track } = opened;
    media = opened.media;
    // Without a first packet, looking for the last one would never end.
    const first = await new EncodedPacketSink(track).getFirstPacket({ metadataOnly: true });
    if (!first) return { kind: "unknown" };
    const seconds = await track.computeDuration();
    const decoded = await tryDecoder(track);
    const rate = decoded?.sampleRate ?? (await track.getSampleRate());
    const channels = decoded?.numberOfChannels ?? (await track.getNumberOfChannels());
    const promised = await promisedSeconds(media, track);
    return {
      kind: "sound",
      rate,
      channels,
      frames: Math.round(seconds * rate),
      promised: promised && Math.round(promised * rate),
      inPieces: decoded !== null,
    };
  } catch (error) {
    return { kind: isGone(error) ? "gone" : "unknown" };
  } finally {
    media?.dispose();
  }
};

/** Copies what lies in both into the planes, which begin at `first`. @returns the frame after the sample's last */
const copyInto = (
  planes: readonly Float32Array[],
  sample: AudioSample,
  rate: number,
  first: number,
  count: number,
): number => {
  const begin = Math.round(sample.timestamp * rate);
  const end = begin + sample.numberOfFrames;
  const from = Math.max(begin, first);
  const to = Math.min(end, first + count);
  if (from < to)
    planes.forEach((plane, planeIndex) => {
      const part = plane.subarray(from - first, to - first);
      sample.copyTo(part, {
        planeIndex,
        format: "f32-planar",
        frameOffset: from - begin,
        frameCount: to - from,
      });
    });
  return end;
};

/**
 * Reads a compressed file by the platform's decoder, in pieces: what is decoded is what is asked for and the few
 * packets that the decoder is ahead. It reads on from where it is; anywhere else it begins anew. Where the file has no
 * packets there is silence.
 */
export const readerOfCompressed = (input: CompressedInput): FrameReader => {
  const { name, file, rate, channels } = input;
  let opened: Opened | null = null;
  let samples: AsyncGenerator<AudioSample, void> | null = null;
  /** Begins in what was read, and goes on behind it. */
  let rest: AudioSample | null = null;
  let position = 0;
  const spare: Float32Array[][] = [];

  const stop = (): void => {
    rest?.close();
    rest = null;
    // What has failed already has said so to whoever read it.
    samples?.return().catch(() => undefined);
    samples = null;
  };

  const begin = async (frame: number): Promise<AsyncGenerator<AudioSample, void>> => {
    stop();
    opened ??= await openTrack(file);
    if (!opened) throw new SoundFileFault({ code: "gone", name });
    position = frame;
    return new AudioSampleSink(opened.track).samples(frame / rate);
  };

  const next = async (from: AsyncGenerator<AudioSample, void>): Promise<AudioSample | null> => {
    const { value } = await from.next();
    if (!value) return null;
    if (value.sampleRate === rate && value.numberOfChannels === channels) return value;
    value.close();
    throw new Error("another rate or other channels");
  };

  const fill = async (planes: readonly Float32Array[], frame: number, count: number): Promise<void> => {
    samples = samples && position === frame ? samples : await begin(frame);
    position = frame + count;
    for (;;) {
      rest ??= await next(samples);
      if (!rest || copyInto(planes, rest, rate, frame, count) > frame + count) return;
      rest.close();
      rest = null;
    }
  };

  return {
    read: async (frame, count) => {
      const used = spare.pop();
      const planes =
        used?.[0]?.length === count ? used : Array.from({ length: channels }, () => new Float32Array(count));
      for (const plane of planes) plane.fill(0);
      try {
        await fill(planes, frame, count);
      } catch (error) {
        throw new SoundFileFault(
          isGone(error) ? { code: "gone", name } : { code: "damaged", name, from: frame / rate },
        );
      }
      return {
        decode: (channel, from, length, out, at) =>
          out.set((planes[channel] as Float32Array).subarray(from, from + length), at),
        release: () => spare.push(planes),
      };
    },
    close: () => {
      stop();
      opened?.media.dispose();
      opened = null;
    },
  };
};
