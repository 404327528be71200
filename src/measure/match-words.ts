import { readName } from "../core/inputs/names";
import type { Side } from "../core/model/units";

/** A name taken apart: words in one spelling each, numbers, and a side. */
export interface Words {
  readonly words: ReadonlySet<string>;
  readonly numbers: ReadonlySet<number>;
  /** Number in front of a name: the track's or channel's. */
  readonly running: number | null;
  readonly side: Side | null;
}

const EXTENSION = /\.(wave?|bwf|w64|rf64|aiff?|caf|flac|mp3|m4a|aac|og[ag]|opus|webm)$/i;
/** "Track 05": a recorder's count, no playback. */
const COUNTED = /\b(audio|track)(?=[\s-]*\d)/gi;
/** Words that say nothing of what was recorded. */
const EMPTY: ReadonlySet<string> = new Set(["mic", "mics", "audio", "mono", "take", "drum", "the"]);

/**
 * Takes a name of a file or channel apart.
 * @example wordsOf("07_OHL.wav") // words: overhead; running: 7; side: left
 */
export const wordsOf = (name: string): Words => {
  const read = readName(name.replace(EXTENSION, "").replaceAll("_", " ").replace(COUNTED, ""));
  return {
    words: new Set(read.words.filter((word) => !EMPTY.has(word))),
    numbers: new Set(read.numbers),
    running: read.channels[0] ?? null,
    side: read.side,
  };
};
