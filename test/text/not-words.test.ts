import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { parseSync } from "vite";
import { expect, it } from "vitest";
import { NOT_WORDS } from "../not-words";

const SRC = resolve(import.meta.dirname, "../../src");

/** Files with words of others: old heads that are still read, and how people write their lists. */
const OF_OTHERS: readonly string[] = ["shelf/csv-cells.ts", "shelf/csv-columns.ts", "core/inputs/terms.ts"];

/** A node of a parsed file. */
interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as Node).type === "string";

/** Nodes whose texts nobody reads: paths, types, how something looks. */
const isUnread = (node: Node): boolean =>
  /^(Import|ExportAll|TS(Literal|TypeAlias|Interface))/.test(node.type) ||
  (node.type === "JSXAttribute" && ["class", "type", "id"].includes((node.name as { name: string }).name));

/** The texts of a part of a file; what is filled in stands as "…". */
const textsIn = (value: unknown): string[] => {
  if (Array.isArray(value)) return value.flatMap(textsIn);
  if (!isNode(value) || isUnread(value)) return [];
  if (value.type === "Literal") return typeof value.value === "string" ? [value.value] : [];
  if (value.type === "JSXText") return [String(value.value)];
  const within = Object.values(value).flatMap(textsIn);
  if (value.type !== "TemplateLiteral") return within;
  const quasis = value.quasis as readonly { readonly value: { readonly cooked: string } }[];
  return [quasis.map((part) => part.value.cooked).join("…"), ...within];
};

/** A text that somebody may read: more than one word, or a word with a capital letter; codes and keys are neither. */
const isRead = (text: string): boolean => /\w\W+\w/.test(text) || /^[A-Z][a-z]/.test(text);

const FILES = readdirSync(SRC, { recursive: true, encoding: "utf8" }).filter(
  (file) => /\.tsx?$/.test(file) && !file.endsWith(".d.ts") && !OF_OTHERS.includes(file),
);

it("no text of the source has a word that makes a sound engineer stop", () => {
  const texts = FILES.flatMap((file) =>
    textsIn(parseSync(file, readFileSync(join(SRC, file), "utf8")).program)
      .map((text) => text.replace(/\s+/g, " ").trim())
      .filter(isRead)
      .map((text) => ({ file, text })),
  );
  // The walk sees texts of every sort: of a screen, of a sentence, with something filled in.
  const all = texts.map(({ text }) => text);
  expect(all).toContain("Where to look, and why");
  expect(all).toContain("At the desk, let the sends to … follow channel pan, or pan them.");
  expect(texts.length).toBeGreaterThan(2000);
  expect(texts.filter(({ text }) => NOT_WORDS.test(text))).toEqual([]);
});

it.each([
  "Two slots free",
  "Send into Drums",
  "Nobody can mix them apart",
  "up to 64 channels; read are 1 to 64",
  "20 lg 2 = 6.02 dB",
  "In ear-worn monitors",
])("“%s” is one that would be found", (text) => {
  expect(text).toMatch(NOT_WORDS);
});

it.each(["A leg-up", "Elegant", "apart from the fix", "tell them apart", "Repatch", "spare"])(
  "“%s” is none",
  (text) => {
    expect(text).not.toMatch(NOT_WORDS);
  },
);
