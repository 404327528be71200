import { type Result, refused } from "../core/lib/result";
import type { CsvNote, CsvRefusal } from "../text/csv";

/** What bytes of a text file say, or why they say nothing. */
export type Decoded = Result<{ text: string; notes: readonly CsvNote[] }, CsvRefusal>;

/** How much of the beginning tells one way of writing letters from another, bytes. */
const HEAD = 4096;

const begins = (bytes: Uint8Array, ...start: number[]): boolean => start.every((b, i) => bytes[i] === b);

/** UTF-16 without a mark: Latin letters have a NUL in every other byte. */
const unmarked = (bytes: Uint8Array): "utf-16le" | "utf-16be" | null => {
  const head = bytes.subarray(0, HEAD);
  const nuls = [0, 0];
  head.forEach((b, i) => {
    if (b === 0) nuls[i % 2] = (nuls[i % 2] ?? 0) + 1;
  });
  const [even = 0, odd = 0] = nuls;
  // A third of all letters: names and numbers of a list are Latin for the most part.
  const enough = head.length / 6;
  if (odd > enough && even * 8 < odd) return "utf-16le";
  return even > enough && odd * 8 < even ? "utf-16be" : null;
};

const eightBit = (bytes: Uint8Array): { readonly text: string; readonly notes: readonly CsvNote[] } => {
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), notes: [] };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(bytes), notes: [{ code: "windows-1252" }] };
  }
};

const decode = (bytes: Uint8Array): { readonly text: string; readonly notes: readonly CsvNote[] } => {
  const wide = begins(bytes, 0xff, 0xfe)
    ? "utf-16le"
    : begins(bytes, 0xfe, 0xff)
      ? "utf-16be"
      : unmarked(bytes);
  // The decoder takes the mark at the beginning away by itself.
  return wide ? { text: new TextDecoder(wide).decode(bytes), notes: [] } : eightBit(bytes);
};

/** How many characters no list has: control characters but tabs and line ends, and what could not be decoded. */
const oddOnes = (text: string): number =>
  [...text].filter((c) => (c < " " && !"\t\n\v\f\r".includes(c)) || c === "\uFFFD").length;

/** The text of a file in UTF-8, UTF-16 (either order, marked or not) or Windows-1252, line ends made alike. */
export const decodeText = (bytes: Uint8Array): Decoded => {
  if (bytes.length === 0) return refused({ code: "empty" });
  if (begins(bytes, 0x50, 0x4b, 0x03, 0x04)) return refused({ code: "workbook" });
  const { text, notes } = decode(bytes);
  const clean = text.replaceAll("\0", "");
  const nuls = text.length - clean.length;
  const odd = oddOnes(clean.slice(0, HEAD));
  if (clean.trim() === "") return refused({ code: "blank" });
  if (odd * 20 > Math.min(HEAD, clean.length)) return refused({ code: "no text" });
  return {
    ok: true,
    text: clean.replace(/\r\n?/g, "\n"),
    notes: nuls > 0 ? [...notes, { code: "nul" }] : notes,
  };
};
