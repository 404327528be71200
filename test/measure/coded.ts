import { spawnSync } from "node:child_process";

/** What ffmpeg makes of these arguments on its output. */
const ffmpeg = (args: readonly string[], input?: Uint8Array): Uint8Array<ArrayBuffer> => {
  const made = spawnSync("ffmpeg", ["-v", "error", "-nostdin", ...args], { input, maxBuffer: 2 ** 30 });
  if (made.status !== 0) throw new Error(`ffmpeg: ${made.error ?? made.stderr}`);
  return Uint8Array.from(made.stdout);
};

/** How a file name's ending is coded by ffmpeg. */
const CODINGS = {
  flac: ["-f", "flac"],
  mp3: ["-c:a", "libmp3lame", "-f", "mp3"],
  ogg: ["-c:a", "libvorbis", "-f", "ogg"],
  opus: ["-c:a", "libopus", "-f", "ogg"],
  m4a: ["-c:a", "aac", "-movflags", "frag_keyframe+empty_moov", "-f", "mp4"],
  aac: ["-c:a", "aac", "-f", "adts"],
  aiff: ["-f", "aiff"],
} as const;
/** A compressed kind of file. */
export type Coding = keyof typeof CODINGS;

/** A WAV file's sound, coded anew by ffmpeg. */
export const coded = (coding: Coding, wav: Uint8Array): Uint8Array<ArrayBuffer> =>
  ffmpeg(["-f", "wav", "-i", "pipe:0", ...CODINGS[coding], "pipe:1"], wav);

/** Silence that takes next to nothing until it is decoded. */
export const codedSilence = (
  coding: Coding,
  seconds: number,
  layout: "mono" | "stereo" | "7.1",
): Uint8Array<ArrayBuffer> =>
  ffmpeg([
    "-f",
    "lavfi",
    "-i",
    `anullsrc=r=48000:cl=${layout}`,
    "-t",
    String(seconds),
    ...CODINGS[coding],
    "pipe:1",
  ]);
