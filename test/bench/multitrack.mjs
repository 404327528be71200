import { once } from "node:events";
import { createWriteStream } from "node:fs";
import { join } from "node:path";
import { noise } from "../tools/chance.mjs";

const RATE = 48_000;
const BEAT = RATE / 2;

/** Pieces: when they are hit (in half beats of a bar of 8), pitch, decay in seconds, share of noise, peak. */
const PIECES = [
  { name: "Kick", hits: [0, 4, 5], pitch: 60, decay: 0.12, breath: 0.05, peak: 0.7 },
  { name: "Snare", hits: [2, 6], pitch: 190, decay: 0.1, breath: 0.6, peak: 0.6 },
  { name: "Hat", hits: [0, 1, 2, 3, 4, 5, 6, 7], pitch: 7000, decay: 0.04, breath: 0.9, peak: 0.25 },
  { name: "Tom 1", hits: [7], pitch: 140, decay: 0.25, breath: 0.1, peak: 0.5 },
  { name: "Tom 2", hits: [3], pitch: 110, decay: 0.3, breath: 0.1, peak: 0.5 },
  { name: "Floor Tom", hits: [5], pitch: 80, decay: 0.35, breath: 0.1, peak: 0.55 },
  { name: "OH L", hits: [0], pitch: 4000, decay: 1.2, breath: 0.95, peak: 0.4 },
  { name: "OH R", hits: [4], pitch: 5000, decay: 0.9, breath: 0.95, peak: 0.35 },
];

/** One hit of a piece. */
const hit = (piece, seed) => {
  const random = noise(seed);
  const out = new Float64Array(Math.round(6 * piece.decay * RATE));
  for (let i = 0; i < out.length; i += 1) {
    const tone = Math.sin((2 * Math.PI * piece.pitch * i) / RATE);
    out[i] =
      piece.peak * Math.exp(-i / RATE / piece.decay) * (tone * (1 - piece.breath) + random() * piece.breath);
  }
  return out;
};

/** Two bars of each piece alone, different strengths; then what every microphone hears: its own piece, and the others 22 dB down. */
const bars = () => {
  const length = BEAT * 8;
  const dry = PIECES.map((piece, p) => {
    const track = new Float64Array(length);
    for (let bar = 0; bar < 2; bar += 1)
      for (const at of piece.hits) {
        const from = (bar * 4 * BEAT + (at * BEAT) / 2) % length;
        const strength = 0.6 + 0.4 * Math.abs(Math.sin(7 * p + 3 * at + bar));
        hit(piece, 97 * p + at + 13 * bar).forEach((x, i) => {
          track[(from + i) % length] += strength * x;
        });
      }
    return track;
  });
  return dry.map((own, p) =>
    own.map((x, i) => x + dry.reduce((sum, other, q) => (q === p ? sum : sum + 0.08 * other[i]), 0)),
  );
};

const header = (frames) => {
  const bytes = Buffer.alloc(44);
  bytes.write("RIFF", 0);
  bytes.writeUInt32LE(36 + frames * 3, 4);
  bytes.write("WAVEfmt ", 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(RATE, 24);
  bytes.writeUInt32LE(RATE * 3, 28);
  bytes.writeUInt16LE(3, 32);
  bytes.writeUInt16LE(24, 34);
  bytes.write("data", 36);
  bytes.writeUInt32LE(frames * 3, 40);
  return bytes;
};

/** Samples full scale 1 as a 24-bit WAV file's bytes, with noise of about −80 dBFS that never repeats. */
const write = async (path, loop, seconds, seed) => {
  const random = noise(seed);
  const out = createWriteStream(path);
  out.write(header(seconds * RATE));
  for (let second = 0; second < seconds; second += 1) {
    const bytes = Buffer.alloc(RATE * 3);
    for (let i = 0; i < RATE; i += 1) {
      const x = loop[(second * RATE + i) % loop.length] + 1e-4 * random();
      bytes.writeIntLE(Math.round(Math.max(-1, Math.min(1 - 2 ** -23, x)) * 2 ** 23) || 0, i * 3, 3);
    }
    if (!out.write(bytes)) await once(out, "drain");
  }
  out.end();
  await once(out, "finish");
};

/**
 * Writes a drum kit of eight tracks, 48 kHz, 24 bits: synthesised hits with spill and noise.
 * @param {string} folder
 * @param {number} seconds
 * @returns {Promise<string[]>} paths
 */
export const writeMultitrack = async (folder, seconds) => {
  const loops = bars();
  const paths = [];
  for (const [i, loop] of loops.entries()) {
    const path = join(folder, `0${i + 1} ${PIECES[i].name}.wav`);
    await write(
      path,
      loop.map((x) => Math.min(1, x)),
      seconds,
      i + 1,
    );
    paths.push(path);
  }
  return paths;
};
