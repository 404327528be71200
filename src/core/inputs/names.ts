import type { PieceKind } from "../model/setup";
import type { Side } from "../model/units";
import { bare, type FoundTerm, findTerms, isNumber } from "./find-terms";
import { type InputKind, KINDS_BY_WEIGHT, type MicrophoneRole } from "./kinds";
import { channelNumbers } from "./numbers";
import type { Term } from "./terms";

/** A name of an input list taken apart. */
export interface InputName {
  /** As it was typed, but for blanks around it. */
  readonly typed: string;
  /** Without the channel's numbers: "Bass DI" of "12 Bass DI". */
  readonly name: string;
  /** That without its side, for two lines that become one stereo channel: "Keys" of "Keys L". */
  readonly base: string;
  /** Numbers of the channel that the line names: none, one, or both of a stereo channel. */
  readonly channels: readonly number[];
  readonly kind: InputKind;
  /** The piece of a kit that it is at; null where it is at none. */
  readonly piece: PieceKind | null;
  readonly microphone: MicrophoneRole | null;
  /** Side of FOH. */
  readonly side: Side | null;
  /** The one line is of both sides: "Keys L/R", "12-13 Keys". */
  readonly stereo: boolean;
  /** Words in one spelling each, sides and numbers left out: names that say the same have the same. */
  readonly words: readonly string[];
  /** Numbers that count what the name says: 2 of "Tom 2". */
  readonly numbers: readonly number[];
}

/** The term that decides: of those that are not weak the one whose kind says most, else of the weak ones. */
const deciding = (found: readonly FoundTerm[]): Term | undefined => {
  const kinds = found.flatMap(({ term }) =>
    term?.kind ? [{ term, weight: KINDS_BY_WEIGHT.indexOf(term.kind) }] : [],
  );
  kinds.sort((a, b) => Number(a.term.weak ?? false) - Number(b.term.weak ?? false) || a.weight - b.weight);
  return kinds[0]?.term;
};

const withoutSide = (name: string, found: readonly FoundTerm[]): string => {
  let text = name;
  for (const { term, from, to } of [...found].reverse())
    if (term?.side) text = text.slice(0, from) + text.slice(to);
  const tidy = text
    .replace(/[([]\s*[)\]]/g, "")
    .replace(/\s+/g, " ")
    .replace(/^[\s\-_./,+]+|[\s\-_./,+([]+$/g, "");
  return tidy || name;
};

/**
 * Reads a line of an input list as people write it: numbers of the channel, instrument, microphone and side in any order.
 * The longest term counts first; what is not known is of kind "other" and stays as it was typed.
 * @param before kind of the line before, on which "BS" depends
 * @example readName("12 OH SR") // channels: [12], kind: "drum", piece: "overhead", side: "left"
 */
export const readName = (typed: string, before: InputKind | null = null): InputName => {
  const { name, channels } = channelNumbers(typed);
  const found = findTerms(name, before);
  const decides = deciding(found);
  const sides = new Set(found.flatMap(({ term }) => term?.side ?? []));
  const both = sides.has("left") === sides.has("right");
  return {
    typed: typed.trim(),
    name,
    base: withoutSide(name, found),
    channels,
    kind: decides?.kind ?? "other",
    piece: decides?.piece ?? null,
    microphone: found.find(({ term }) => term?.role)?.term?.role ?? null,
    side: both ? null : sides.has("left") ? "left" : "right",
    stereo: both && (sides.size > 0 || channels.length === 2),
    words: found.flatMap((f) =>
      f.term?.side || isNumber(f) ? [] : (f.term?.word ?? bare(f.text)).split(" "),
    ),
    numbers: found.filter(isNumber).map((f) => Number(f.text)),
  };
};
