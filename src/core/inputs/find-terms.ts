import type { InputKind } from "./kinds";
import { TERMS, type Term } from "./terms";

/** Letters or digits of a text, and where they stand. */
export interface Token {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}
/** Tokens that were read as one, and as which term; null where none is known. */
export interface FoundTerm extends Token {
  readonly term: Term | null;
}

/** A word as it is compared: small letters and digits only. */
export const bare = (text: string): string =>
  text
    .normalize("NFD")
    .replace(/[^\p{L}\p{N}]/gu, "")
    .toLowerCase();

const WRITTEN: ReadonlyMap<string, readonly Term[]> = TERMS.reduce((all, term) => {
  for (const way of term.written.map(bare)) all.set(way, [...(all.get(way) ?? []), term]);
  return all;
}, new Map<string, Term[]>());

/** Longest way to write a term, words. */
const LONGEST = Math.max(...TERMS.flatMap((t) => t.written.map((way) => way.split(" ").length)));

/** Whether it is digits. */
export const isNumber = (token: Token | undefined): boolean =>
  token !== undefined && /^\p{N}/u.test(token.text);

/** Letters and digits apart, and words that only a capital letter parts. */
const TOKENS = /\p{N}+|\p{Lu}+(?=\p{Lu}\p{Ll})|\p{Lu}?\p{Ll}+|\p{Lu}+|[\p{L}\p{M}]+/gu;

const tokensOf = (text: string): Token[] =>
  [...text.matchAll(TOKENS)].map((m) => ({ text: m[0], from: m.index, to: m.index + m[0].length }));

/** What is known where a term is looked up. */
interface Place {
  readonly next: Token | undefined;
  readonly behind: readonly FoundTerm[];
  readonly before: InputKind | null;
}

const termFor = (words: readonly string[], { next, behind, before }: Place): Term | undefined => {
  const way = bare(words.join(""));
  // "OHs" is a plural, "OH S" the beginning of a side.
  const isPlural = way.length > 2 && /.s$/iu.test(words.at(-1) ?? "");
  return (WRITTEN.get(way) ?? (isPlural ? WRITTEN.get(way.slice(0, -1)) : undefined))?.find(
    (term) =>
      (!term.numbered || isNumber(next)) &&
      (!term.after || term.after === before) &&
      (!term.behind || behind.some((f) => f.term?.piece && term.behind?.includes(f.term.piece))),
  );
};

/** A token of two terms without a gap, "OHL" or "snaretop"; so short a word as a side's letter only behind it. */
const apart = (token: Token, place: Place): FoundTerm[] => {
  for (let cut = token.text.length - 1; cut >= 2; cut -= 1) {
    const rest = token.text.slice(cut);
    if (cut < 3 && rest.length > 1) continue;
    const first = termFor([token.text.slice(0, cut)], place);
    const second = termFor([rest], place);
    if (!first || !second || (rest.length === 1 && !second.side)) continue;
    const at = token.from + cut;
    return [
      { ...token, to: at, term: first },
      { ...token, from: at, term: second },
    ];
  }
  return [{ ...token, term: null }];
};

/**
 * The terms of a text, at each place the longest.
 * @param before kind of the line before
 */
export const findTerms = (text: string, before: InputKind | null): FoundTerm[] => {
  const tokens = tokensOf(text);
  const found: FoundTerm[] = [];
  for (let at = 0; at < tokens.length; ) {
    const token = tokens[at] as Token;
    const numberAt = tokens.findIndex((t, i) => i >= at && isNumber(t));
    const end = numberAt < 0 ? tokens.length : numberAt;
    let length = Math.min(LONGEST, end - at);
    let term: Term | undefined;
    for (; length > 0; length -= 1) {
      const words = tokens.slice(at, at + length).map((t) => t.text);
      term = termFor(words, { next: tokens[at + length], behind: found, before });
      if (term) break;
    }
    if (term) {
      const { to } = tokens[at + length - 1] as Token;
      found.push({ text: text.slice(token.from, to), from: token.from, to, term });
    } else if (isNumber(token)) found.push({ ...token, term: null });
    else found.push(...apart(token, { next: tokens[at + 1], behind: found, before }));
    at += Math.max(1, length);
  }
  return found;
};
