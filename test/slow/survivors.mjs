/* What is known to live of the mutants of core and document, and why. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const folder = join(import.meta.dirname, "survivors");

const oneLine = (code) => code.replace(/\s+/g, " ").trim();
const short = (code) => (code.length > 80 ? `${code.slice(0, 79)}…` : code);

/**
 * Names a mutant by its text, so that lines may move: the line it begins on, what is replaced between « and », and by what.
 * `source` is the whole file, `location` as in the report (lines and columns from 1).
 */
export const nameOf = (file, source, { location: { start, end }, replacement = "" }) => {
  const line = source.split("\n")[start.line - 1];
  const upTo = end.line === start.line ? end.column - 1 : line.length;
  const [before, changed, after] = [
    line.slice(0, start.column - 1),
    line.slice(start.column - 1, upTo),
    line.slice(upTo),
  ];
  const more = end.line === start.line ? "" : " …";
  return `${file}: ${`${before}«${changed}${more}»${after}`.trim()} → ${short(oneLine(replacement))}`;
};

/** Each file of `survivors/` is a list of `{ why, lives }`; gives the reason of each name. */
export const reasons = () =>
  new Map(
    readdirSync(folder)
      .filter((file) => file.endsWith(".json"))
      .flatMap((file) => JSON.parse(readFileSync(join(folder, file), "utf8")))
      .flatMap(({ why, lives }) => lives.map((name) => [name, why])),
  );
