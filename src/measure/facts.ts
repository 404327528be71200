import { type Result, refused } from "../core/lib/result";
import type { Seconds } from "../core/model/units";
import type { SoundFileNote } from "../text/sound-files";
import { bytesOf } from "./bytes";
import type { Input } from "./protocol";
import { openWav, type Wav } from "./wav/open";

/** What is known of an input before any of its samples is read. */
export interface InputFacts {
  readonly name: string;
  readonly rate: number;
  readonly channels: number;
  readonly frames: number;
  /** Frames since midnight at which it began; null where nobody knows. */
  readonly began: number | null;
  /** What is to be said of the file. */
  readonly notes: readonly SoundFileNote[];
}

/** The facts of an input, or why it cannot be measured. */
export type ReadFacts = Result<{ facts: InputFacts }, SoundFileNote>;

/** A fault of a sound file, thrown where nothing can be returned. */
export class SoundFileFault extends Error {
  constructor(readonly note: SoundFileNote) {
    super(note.code);
  }
}

/** The head of a WAV file, or why it cannot be read. Never rejects. */
export const readHead = async (name: string, file: Blob): Promise<Result<{ wav: Wav }, SoundFileNote>> => {
  try {
    const opened = await openWav(bytesOf(file));
    return opened.ok ? opened : refused({ code: "wav", name, note: opened.why });
  } catch {
    return refused({ code: "gone", name });
  }
};

/** The facts in the head of a WAV file. */
export const factsOfWav = (name: string, { rate, channels, frames, began, notes }: Wav): InputFacts => ({
  name,
  rate,
  channels,
  frames,
  began,
  notes: notes.map((note) => ({ code: "wav", name, note })),
});

/** A file that lacks less than this is whole: its last packet may be too short to be told. */
const WHOLE: Seconds = 0.5;

const cutNotes = ({ name, rate, frames }: InputFacts, promised: number | null): SoundFileNote[] =>
  promised !== null && promised - frames > WHOLE * rate
    ? [{ code: "cut", name, promised: promised / rate, held: frames / rate }]
    : [];

/** The facts of a compressed file, as it was looked at or decoded. */
const factsOfCompressed = (input: Exclude<Input, { kind: "file" }>): InputFacts => {
  const { name, rate } = input;
  const looked = input.kind === "compressed" ? input : null;
  const facts: InputFacts = {
    name,
    rate,
    channels: input.kind === "compressed" ? input.channels : input.channels.length,
    frames: input.kind === "compressed" ? input.frames : (input.channels[0]?.length ?? 0),
    began: null,
    notes: [{ code: "decoded", name, rate }],
  };
  return { ...facts, notes: [...facts.notes, ...cutNotes(facts, looked?.promised ?? null)] };
};

/** Reads the facts of an input. Never rejects. */
export const readFacts = async (input: Input): Promise<ReadFacts> => {
  const { name } = input;
  if (input.kind === "file") {
    const head = await readHead(name, input.file);
    return head.ok ? { ok: true, facts: factsOfWav(name, head.wav) } : head;
  }
  const facts = factsOfCompressed(input);
  return facts.frames === 0 ? refused({ code: "no audio", name }) : { ok: true, facts };
};
