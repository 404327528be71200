import { checksum } from "./link";

/** Version of the form of a link that is a part of another. */
const PART = 2;
/** Parts that a link can be cut into: the number of each is one character. */
const MOST_PARTS = 35;

/** A part of a link. */
export interface LinkPart {
  /** Which of how many, from 1. */
  readonly at: number;
  readonly of: number;
  /** The same for all parts of one link. */
  readonly whole: string;
  readonly data: string;
}

/**
 * A link in as few parts of at most so many characters as it takes, each a link to the same address:
 * `#s=2.<which><of how many>.<checksum of the whole>.<a piece of what stands behind "#s=">`, numbers in base 36. One
 * that fits stays whole; none where it takes more than 35.
 */
export const inParts = (link: string, most: number): string[] => {
  if (link.length <= most) return [link];
  const [, address = "", body = ""] = /^(.*)#s=(.*)$/s.exec(link) ?? [];
  const head = (at: number, of: number): string =>
    `${address}#s=${PART}.${at.toString(36)}${of.toString(36)}.${checksum(body)}.`;
  const room = most - head(1, 1).length;
  const of = room > 0 ? Math.ceil(body.length / room) : Number.POSITIVE_INFINITY;
  if (of > MOST_PARTS) return [];
  // All alike, so that none is denser than it has to be.
  const size = Math.ceil(body.length / of);
  return Array.from({ length: of }, (_, at) => head(at + 1, of) + body.slice(at * size, (at + 1) * size));
};

/** What a link is a part of; null where it is whole, or none. */
export const partOf = (link: string): LinkPart | null => {
  const found = /#s=2\.([0-9a-z])([0-9a-z])\.([0-9a-z]{1,7})\.([\w.-]+)$/.exec(link.replace(/\s/g, ""));
  if (!found) return null;
  const [at, of] = [Number.parseInt(found[1] ?? "", 36), Number.parseInt(found[2] ?? "", 36)];
  if (at < 1 || at > of) return null;
  return { at, of, whole: found[3] ?? "", data: found[4] ?? "" };
};

/** The link of which these are all parts, in any order; null while one is missing. */
export const joined = (parts: readonly LinkPart[]): string | null => {
  const byPlace = new Map(parts.map((part) => [part.at, part.data]));
  const of = parts[0]?.of ?? 0;
  const all = Array.from({ length: of }, (_, at) => byPlace.get(at + 1));
  return of > 0 && all.every((data) => data !== undefined) ? `#s=${all.join("")}` : null;
};
