import { quoted } from "../core/lib/direction";
import { type Result, refused } from "../core/lib/result";
import type { Seconds } from "../core/model/units";
import { bytesOf } from "./bytes";
import type { Input } from "./protocol";
import { cutSaid, openWav, type Wav } from "./wav/open";

/** What is known of an input before any of its samples is read. */
export interface InputFacts {
  readonly name: string;
  readonly rate: number;
  readonly channels: number;
  readonly frames: number;
  /** Frames since midnight at which it began; null where nobody knows. */
  readonly began: number | null;
  /** Sentences about the file. */
  readonly notes: readonly string[];
}

/** The facts of an input, or the sentence why it cannot be measured. */
export type ReadFacts = Result<{ facts: InputFacts }>;

/** What is said when a chosen file cannot be read any more. */
export const goneSentence = (name: string): string =>
  `${quoted(name)} could not be read: it was moved, changed or removed after it was chosen. Choose it again.`;

/** The head of a WAV file, or the sentence why it cannot be read. Never rejects. */
export const readHead = async (name: string, file: Blob): Promise<Result<{ wav: Wav }>> => {
  try {
    const opened = await openWav(bytesOf(file));
    return opened.ok ? opened : refused(`${quoted(name)} ${opened.why}.`);
  } catch {
    return refused(goneSentence(name));
  }
};

/** The facts in the head of a WAV file. */
export const factsOfWav = (name: string, { rate, channels, frames, began, notes }: Wav): InputFacts => ({
  name,
  rate,
  channels,
  frames,
  began,
  notes: notes.map((note) => `${quoted(name)} ${note}.`),
});

/** A file that lacks less than this is whole: its last packet may be too short to be told. */
const WHOLE: Seconds = 0.5;

const cutNotes = ({ name, rate, frames }: InputFacts, promised: number | null): string[] =>
  promised !== null && promised - frames > WHOLE * rate
    ? [`${quoted(name)} ${cutSaid(promised / rate, frames / rate)}.`]
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
    notes: [
      `${quoted(name)} was decoded by the browser at ${rate} Hz; its peaks may differ a little from the original’s.`,
    ],
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
  return facts.frames === 0 ? refused(`${quoted(name)} holds no audio.`) : { ok: true, facts };
};
