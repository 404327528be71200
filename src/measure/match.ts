import type { TrackPlace } from "../core/measure/bus-gains";
import type { Channel } from "../core/model/setup";
import { type Words, wordsOf } from "./match-words";

/** One channel of one chosen file. */
export interface MatchCandidate {
  /** Index of the file. */
  readonly input: number;
  /** Counted from 0. */
  readonly channel: number;
  readonly name: string;
  /** How many channels the file has. */
  readonly of: number;
}

/** What each candidate is taken for; null is left out. */
export type Matching = readonly (TrackPlace | null)[];

/** Below this likeness, 0…1, a name is no match: two names that share half of their words reach it. */
const LEAST = 0.5;
/** Weight of a shared or a missing number and side beside a word; of a place in the list as a last resort. */
const NUMBER = 0.6;
const SIDE = 0.8;
const ORDER = 0.1;

const shared = <T>(a: ReadonlySet<T>, b: ReadonlySet<T>): number => {
  let count = 0;
  for (const item of a) if (b.has(item)) count += 1;
  return count;
};

/**
 * Likeness of two names, 0…1: what they share over what both hold. A number or side counts when the channel has one;
 * a file's own running number does not count against it.
 */
const likeness = (file: Words, channel: Words): number => {
  const words = shared(file.words, channel.words);
  if (words === 0) return 0;
  const numbers = shared(file.numbers, channel.numbers);
  const sides = channel.side !== null && channel.side === file.side ? 1 : 0;
  const clash = channel.side !== null && file.side !== null && channel.side !== file.side ? 1 : 0;
  const both = words + NUMBER * numbers + SIDE * sides;
  const apart =
    file.words.size -
    words +
    (channel.words.size - words) +
    NUMBER * (channel.numbers.size - numbers) +
    SIDE * (channel.side !== null && file.side === null ? 1 : 0) +
    2 * SIDE * clash;
  return (2 * both) / (2 * both + apart);
};

/** Words that all files share say nothing: the name of the evening. Left in when nothing else would remain. */
const withoutCommon = (names: readonly Words[]): readonly Words[] => {
  if (names.length < 2) return names;
  const common = [...(names[0] as Words).words].filter((w) => names.every((n) => n.words.has(w)));
  if (names.some((n) => n.words.size <= common.length)) return names;
  return names.map((n) => ({ ...n, words: new Set([...n.words].filter((w) => !common.includes(w))) }));
};

/** A channel of a two-channel file or channel as a name of its own: first left, then right. */
const sided = (words: Words, line: number, of: number): Words =>
  of === 2 && words.side === null ? { ...words, side: line === 0 ? "left" : "right" } : words;

interface Pair {
  readonly candidate: number;
  readonly place: number;
  readonly score: number;
}

/** All channels of all channels, in their order. */
const placesOf = (channels: readonly Channel[]): (TrackPlace & { readonly words: Words })[] =>
  channels.flatMap((channel) =>
    Array.from({ length: channel.lines }, (_, line) => ({
      channel: channel.id,
      line: line as 0 | 1,
      words: sided(wordsOf(channel.name), line, channel.lines),
    })),
  );

/**
 * Matches the channels of the chosen files to channels by name: the likest pair first, each of them once. Of pairs
 * equally like, the one whose number in the file's name, or channel, is the channel's number in the list.
 * The channels of one file with more than two have no names: they are taken in the order of the channels.
 * @param corrections what the user has said of a candidate, by its index: it stands, whatever the names say
 */
export const matchTracks = (
  candidates: readonly MatchCandidate[],
  channels: readonly Channel[],
  corrections: ReadonlyMap<number, TrackPlace | null> = new Map(),
): Matching => {
  const places = placesOf(channels);
  const names = withoutCommon(candidates.map((c) => wordsOf(c.name))).map((words, i) => {
    const { channel: line, of } = candidates[i] as MatchCandidate;
    return sided(words, line, of);
  });
  const result: (TrackPlace | null)[] = candidates.map((_, i) => corrections.get(i) ?? null);
  const given = result.filter((p) => p !== null);
  const taken = new Set(
    places.flatMap((p, i) => (given.some((g) => g.channel === p.channel && g.line === p.line) ? [i] : [])),
  );
  const pairs: Pair[] = [];
  candidates.forEach((candidate, c) => {
    if (corrections.has(c)) return;
    places.forEach((place, p) => {
      const byOrder = candidate.of > 2 ? candidate.channel === p : names[c]?.running === p + 1;
      const score = candidate.of > 2 ? (byOrder ? 1 : 0) : likeness(names[c] as Words, place.words);
      if (score >= LEAST) pairs.push({ candidate: c, place: p, score: score + (byOrder ? ORDER : 0) });
    });
  });
  pairs.sort((a, b) => b.score - a.score || a.candidate - b.candidate || a.place - b.place);
  const done = new Set<number>();
  for (const { candidate, place } of pairs) {
    if (done.has(candidate) || taken.has(place)) continue;
    const { channel, line } = places[place] as TrackPlace;
    result[candidate] = { channel, line };
    done.add(candidate);
    taken.add(place);
  }
  return result;
};
