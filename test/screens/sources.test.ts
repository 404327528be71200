import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { SOURCES } from "../../src/screens/sources";

const ROOT = join(import.meta.dirname, "../..");
const ABOUT = SOURCES.flatMap(({ texts }) => texts.map(({ text }) => text)).join("\n");
const TABLES = readdirSync(join(ROOT, "test/tables"));

/** Numbers of standards wherever the code or its papers name one: "RFC 4180", "Tech 3285", "BS.1770". */
const STANDARD =
  /\b(?:RFC \d{3,5}|Tech \d{4}|BS\.\d{4}|IEC \d{5}(?:-\d)?|AES\d{2}|RP[- ]\d{3}|R 68|NIOSH(?: publication)? [\d-]{4,}|\d+ CFR [\d.]*\d|20\d\d\/\d+\/EC|JA[SE][AS]? \d+)/g;

const textsUnder = (folder: string): string[] =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.(tsx?|md)$/.test(name))
    .map((name) => readFileSync(join(ROOT, folder, name), "utf8"));

/** As About writes it. */
const asWritten = (standard: string): string => standard.replace("publication ", "");

const named = [
  ...textsUnder("src"),
  ...textsUnder("test/tables"),
  readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8"),
  readFileSync(join(ROOT, "README.md"), "utf8"),
].flatMap((text) => text.match(STANDARD) ?? []);

describe("About names", () => {
  it.each(TABLES)("the source of %s", async (name) => {
    const table: { readonly SOURCE?: string | null } = await import(/* @vite-ignore */ `../tables/${name}`);
    if (table.SOURCE === undefined)
      throw new Error("a table says by SOURCE where it is from, null where from no text");
    if (table.SOURCE !== null) expect(ABOUT).toContain(table.SOURCE);
  });

  it("every standard that the code or its papers mention by number", () => {
    expect(new Set(named).size).toBeGreaterThan(12);
    expect([...new Set(named.map(asWritten))].filter((standard) => !ABOUT.includes(standard))).toEqual([]);
  });

  it("each source once", () => {
    const texts = SOURCES.flatMap((s) => s.texts.map(({ text }) => text));
    expect(new Set(texts).size).toBe(texts.length);
  });
});
