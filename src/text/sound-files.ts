import { quoted } from "../core/lib/direction";
import { formatClock } from "../core/lib/number";
import type { Seconds } from "../core/model/units";
import { type CodeOf, textOf } from "./coded";
import { describeWorkerTrouble, type WorkerTrouble } from "./worker-fault";

/** From the least to the most. */
type Span = readonly [least: number, most: number];

/** Codings that turn up in WAV files by their numbers, to say what it is that is not read. */
const CODINGS: { readonly [tag: number]: string } = {
  2: "ADPCM",
  6: "A-law",
  7: "µ-law",
  17: "ADPCM",
  49: "GSM",
  80: "MPEG",
  85: "MP3",
};

const codingName = (tag: number | null): string =>
  tag === null ? "an unknown coding" : (CODINGS[tag] ?? `coding ${tag}`);

const spanText = ([least, most]: Span): string => `${least} to ${most}`;

const cutText = ({ promised, held }: { promised: Seconds; held: Seconds }): string =>
  `is cut off: its header promises ${formatClock(promised)}, it holds ${formatClock(held)}; measured up to the cut`;

/** What is to be said of a WAV file; goes on from its name, without a full stop. */
const WAV = {
  empty: () => "is empty",
  reversed: ({ head }: { head: string }) =>
    `is a ${head} file (big-endian), which is not read; export it as WAV`,
  "other kind": ({ head, kind }: { head: string; kind: string }) =>
    `is ${head}, but its kind at byte 8 is “${kind}”, not “WAVE”`,
  "no WAV": ({ begins, heads }: { begins: string; heads: readonly string[] }) =>
    `is not a WAV file: it begins with “${begins}”, not with ${heads.slice(0, -1).join(", ")} or ${heads.at(-1)}`,
  "many chunks": ({ most }: { most: number }) => `has more than ${most} chunks`,
  "eight bits": () => "has 8-bit samples, too coarse to measure; export 16 bits or more",
  width: ({ bits, width, coding }: { bits: number; width: number; coding: "integer" | "float" }) =>
    coding === "integer"
      ? `has ${bits} bits in ${width} bytes a sample, integer; allowed are 16, 24 or 32 bits`
      : `has ${bits} bits in ${width} bytes a sample, floating point; allowed are 32 or 64 bits`,
  "short format": ({ length, least }: { length: number; least: number }) =>
    `has a fmt chunk of ${length} bytes; it needs at least ${least}`,
  coding: ({ tag }: { tag: number | null }) =>
    `is coded as ${codingName(tag)}; export integer or floating-point PCM`,
  channels: ({ channels, allowed }: { channels: number; allowed: Span }) =>
    `has ${channels} channels; allowed are ${spanText(allowed)}`,
  rate: ({ rate, allowed }: { rate: number; allowed: Span }) =>
    `has a rate of ${rate} Hz; allowed are ${spanText(allowed)} Hz`,
  frame: ({ frameBytes, channels }: { frameBytes: number; channels: number }) =>
    `has ${frameBytes} bytes for a frame of ${channels} channels, which does not divide`,
  "no format": () => "has no fmt chunk: nothing says how its samples lie",
  "no data": ({ size }: { size: number }) => `holds no audio: there is no data chunk in its ${size} bytes`,
  "empty data": ({ at }: { at: number }) => `holds no audio: its data chunk at byte ${at} is empty`,
  "no length": ({ seconds }: { seconds: Seconds }) =>
    `has no length in its header (it was not closed properly); read to its end, ${formatClock(seconds)}`,
  cut: cutText,
  "part frame": ({ rest }: { rest: number }) => `ends within a frame; its last ${rest} bytes are left out`,
};

/** Something to be said of a WAV file whose name is told elsewhere. */
export type WavNote = CodeOf<typeof WAV>;

interface Named {
  readonly name: string;
}

/** Whole megabytes, a begun one counted: what is over the limit never prints as the limit. */
const megabytes = (bytes: number): number => Math.ceil(bytes / 2 ** 20);

const preciseSeconds = (seconds: Seconds): string => `${seconds.toFixed(3)} s`;

/** What is to be said of sound files, and why they cannot be measured. */
const FILES = {
  wav: ({ name, note }: Named & { note: WavNote }) => `${quoted(name)} ${textOf(WAV, note)}.`,
  gone: ({ name }: Named) =>
    `${quoted(name)} could not be read: it was moved, changed or removed after it was chosen. Choose it again.`,
  cut: (v: Named & { promised: Seconds; held: Seconds }) => `${quoted(v.name)} ${cutText(v)}.`,
  decoded: ({ name, rate }: Named & { rate: number }) =>
    `${quoted(name)} was decoded by the browser at ${rate} Hz; its peaks may differ a little from the original’s.`,
  "no audio": ({ name }: Named) => `${quoted(name)} holds no audio.`,
  unknown: ({ name }: Named) =>
    `${quoted(name)} is neither WAV nor a sound file that this browser can decode. Export it as WAV.`,
  large: ({ name, bytes, most }: Named & { bytes: number; most: number }) =>
    `${quoted(name)} unpacks to ${megabytes(bytes)} MB and can only be decoded as a whole in this browser; up to ${megabytes(most)} MB can be. Export it as WAV.`,
  rate: ({ name, rate, allowed }: Named & { rate: number; allowed: Span }) =>
    `${quoted(name)} has a rate of ${rate} Hz; ${spanText(allowed)} Hz can be measured.`,
  channels: ({ name, channels, allowed }: Named & { channels: number; allowed: Span }) =>
    `${quoted(name)} has ${channels} channels; ${spanText(allowed)} can be measured.`,
  long: ({ name, hours, most }: Named & { hours: number; most: number }) =>
    `${quoted(name)} lasts ${Math.ceil(hours)} hours; up to ${most} hours can be measured. Cut it.`,
  "looked at in vain": ({ name, trouble }: Named & { trouble: WorkerTrouble }) =>
    `${quoted(name)} could not be read. ${describeWorkerTrouble("Reading it", trouble)}`,
  "looked at too long": ({ name, seconds }: Named & { seconds: Seconds }) =>
    `${quoted(name)} could not be read. Reading it took more than ${seconds} s. Export it as WAV.`,
  damaged: ({ name, from }: Named & { from: Seconds }) =>
    `${quoted(name)} cannot be decoded from ${formatClock(from)} on: it is damaged there. Export it as WAV.`,
  "rates differ": ({ files }: { files: readonly (Named & { readonly rate: number })[] }) =>
    `The files have different rates: ${files.map(({ rate, name }) => `${rate} Hz in ${quoted(name)}`).join(", ")}. Samples of different rates cannot be added; export all at one rate.`,
  "no start time": ({ names }: { names: readonly string[] }) =>
    `No start time in ${names.map(quoted).join(", ")}: all files are assumed to start together.`,
  "begins later": ({ name, seconds }: Named & { seconds: Seconds }) =>
    `${quoted(name)} begins ${preciseSeconds(seconds)} later, by the time in its header.`,
  "ends early": ({ name, seconds }: Named & { seconds: Seconds }) =>
    `${quoted(name)} ends ${preciseSeconds(seconds)} before the longest; it counts as silent from there.`,
  apart: ({ name }: Named) =>
    `By the times in their headers the files do not overlap: ${quoted(name)} begins after another has ended. Line them up at their beginnings instead.`,
  "no file": () => "There is no file to measure.",
  "no track": () => "No track is matched to a channel yet.",
  "no such file": () => "A track names a file that was not given.",
  "no such channel": ({ name, channel, channels }: Named & { channel: number; channels: number }) =>
    `${quoted(name)} has no channel ${channel + 1}; it has ${channels}.`,
  "many tracks": ({ count, most }: { count: number; most: number }) =>
    `${count} tracks: too many. Allowed in one go: ${most}.`,
  unusable: ({ name, count }: Named & { count: number }) =>
    count === 1
      ? `1 sample of ${quoted(name)} is not a number or is beyond +120 dBFS; it counts as silence.`
      : `${count} samples of ${quoted(name)} are not numbers or are beyond +120 dBFS; they count as silence.`,
  stopped: ({ trouble }: { trouble: WorkerTrouble }) => describeWorkerTrouble("Measuring", trouble),
  cancelled: () => "Measuring was cancelled: nothing has changed.",
  /** What an engine said, in its words. */
  failed: ({ reason }: { reason: string }) => reason,
};

/** Something to be said of sound files, or why they cannot be measured. */
export type SoundFileNote = CodeOf<typeof FILES>;

/** It in a sentence. */
export const describeSoundFile = (note: SoundFileNote): string => textOf(FILES, note);
