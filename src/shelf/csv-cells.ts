import { readName } from "../core/inputs/names";
import { type NumberRule, plain, readNumber } from "../core/lib/number";
import { type Result, refused } from "../core/lib/result";
import type { ChannelKind, TapPoint } from "../core/model/setup";
import type { Side } from "../core/model/units";
import { LIMITS } from "../document/limits";
import type { CellProblem } from "../text/csv";
import { KIND_WORDS } from "../text/list";
import { TAP_NAMES } from "../text/taps";

/** What a cell means, or what is wrong with it. */
export type Cell<T> = Result<{ value: T }, CellProblem>;

/** What begins a formula, in ASCII or as wide as an ideograph. */
const SIGN = "[=+\\-@\uFF1D\uFF0B\uFF0D\uFF20]";
/**
 * What a reader may cut at or leave out, and the sign behind it if there is one: delimiters and line ends, blanks, marks
 * that nobody sees, quotation marks and apostrophes.
 */
const RUN = new RegExp(`([,;|\\s\\p{DI}\u2800"']+)(${SIGN}?)`, "gu");
const HARMLESS = /^[+-]?\d+([.,]\d+)?(e[+-]?\d+)?$/i;

/** Whether a formula may begin there. Blanks are cut at too, but names have a plus or hyphen behind them: there only = counts. */
const isFormula = (run: string, sign: string): boolean =>
  sign !== "" && (/[,;|\t\r\n]/.test(run) || (/[=\uFF1D]/.test(sign) && /[^"']/.test(run)));

/** A cell with its runs changed: what the first one is of begins behind a line end, as far as any reader knows. */
const changed = (cell: string, change: (run: string, opens: boolean, isFirst: boolean) => string): string =>
  `\n${cell}`
    .replace(
      RUN,
      (_, run: string, sign: string, at: number) => change(run, isFormula(run, sign), at === 0) + sign,
    )
    .slice(1);

/**
 * A text of which no spreadsheet takes anything for a formula, whichever delimiter it cuts at: there an apostrophe is put
 * before the sign. One that begins with an apostrophe, tab or line end gets one before that too, so that `unguard` always
 * finds the same text again.
 */
export const guardText = (cell: string): string =>
  changed(cell, (run, opens, isFirst) => {
    const front = isFirst ? run.replace(/^\n(?=['\t\r\n])/, "\n'") : run;
    return opens ? `${front}'` : front;
  });

/** A cell that no spreadsheet takes for a formula. A plain number does nothing and stays a number. */
export const guard = (cell: string): string => (HARMLESS.test(cell) ? cell : guardText(cell));

/** A cell without the apostrophes that made it harmless. */
export const unguard = (cell: string): string =>
  changed(cell, (run, opens, isFirst) => {
    const bare = opens ? run.replace(/'$/, "") : run;
    return isFirst ? bare.replace(/^\n'(?=['\t\r\n])/, "\n") : bare;
  });

const YES = ["yes", "y", "true", "1", "x", "on", "✓"];
const NO = ["no", "n", "false", "0", "off", "", "–", "-"];

/** Yes or no; `more` gives further words that mean yes, then further ones that mean no. */
export const readYes = (
  cell: string,
  title: string,
  more: readonly [readonly string[], readonly string[]] = [[], []],
): Cell<boolean> => {
  const word = cell.trim().toLowerCase();
  if ([...YES, ...more[0]].includes(word)) return { ok: true, value: true };
  if ([...NO, ...more[1]].includes(word)) return { ok: true, value: false };
  return refused({ code: "not yes", title, cell, allowed: [more[0][0] ?? "yes", more[1][0] ?? "no"] });
};

/** A number by a rule, also as spreadsheets shorten it (1E-07). */
export const readCellNumber = (cell: string, rule: NumberRule): Cell<number> => {
  const short = plain(cell);
  const text = /^[+-]?[\d.]+e[+-]?\d+$/.test(short) ? Number(short) : null;
  if (text !== null && text >= rule.min && text <= rule.max) return { ok: true, value: text };
  const typed = readNumber(cell, rule);
  if (typed.state === "value") return { ok: true, value: typed.value };
  if (typed.state === "wrong") return refused({ code: "typed", fault: typed.why });
  return refused({ code: "part of a number", cell, rule });
};

const KINDS = new Map(Object.entries(KIND_WORDS).map(([kind, word]) => [word, kind as ChannelKind]));

/** A kind by its own word or by one of its like: "vocal", "BV", and "voice" as lists had it. */
export const readKind = (cell: string): Cell<ChannelKind> => {
  const word = cell.trim().toLowerCase();
  const kind = KINDS.get(word) ?? readName(word).kind;
  if (kind !== "other" || word === "other") return { ok: true, value: kind };
  return refused({ code: "kind", cell, allowed: [...KINDS.keys()].sort() });
};

const TAP_WORDS = new Map<string, TapPoint>([
  ...(Object.entries(TAP_NAMES) as [TapPoint, string][]).map(([tap, name]): [string, TapPoint] => [
    name.toLowerCase().replace(/[^a-z]+/g, " "),
    tap,
  ]),
  // As older versions of this app wrote them.
  ["before filter", "pre-hpf"],
  ["before eq", "pre-eq"],
  ["before fader", "pre-fader"],
  ["after fader", "post-fader"],
  ["input", "pre-hpf"],
  ["pre hpf", "pre-hpf"],
  ["before filter", "pre-hpf"],
  ["pre eq", "pre-eq"],
  ["before eq", "pre-eq"],
  ["pre fader", "pre-fader"],
  ["before fader", "pre-fader"],
  ["pre", "pre-fader"],
  ["post fader", "post-fader"],
  ["after fader", "post-fader"],
  ["post", "post-fader"],
]);

/** A tap point by its name. */
export const readTap = (cell: string): Cell<TapPoint> => {
  const tap = TAP_WORDS.get(
    cell
      .trim()
      .toLowerCase()
      .replace(/[^a-z]+/g, " "),
  );
  return tap ? { ok: true, value: tap } : refused({ code: "tap", cell });
};

/** One monitor input of a cell. */
export interface InputWord {
  readonly input: number;
  readonly side: "both" | Side;
}

const CHANNELS = { l: "left", r: "right", m: "both" } as const;
const INPUTS = /^\d+ ?[lrm]?([ /+&,;-]+\d+ ?[lrm]?)*$/;

/** The monitor inputs of a channel: "5"; "5 6" or "5/6" left and right of a stereo one; "5L 6R", and "5M" for both in one. */
export const readInputs = (cell: string, channels: 1 | 2): Cell<readonly InputWord[]> => {
  const text = cell.trim().toLowerCase();
  if (text === "") return { ok: true, value: [] };
  const most = LIMITS.inputs;
  if (!INPUTS.test(text)) return refused({ code: "no input", cell, most });
  const words = [...text.matchAll(/(\d+) ?([lrm]?)/g)];
  const pair = channels === 2 && words.length === 2 && words.every((w) => w[2] === "");
  const inputs = words.map(([, number, letter], i): InputWord => {
    const named = letter ? CHANNELS[letter as keyof typeof CHANNELS] : "both";
    return { input: Number(number), side: pair ? (i === 0 ? "left" : "right") : named };
  });
  const far = inputs.find(({ input }) => input < 1 || input > most);
  if (far) return refused({ code: "far input", input: far.input, most });
  if (channels === 1 && inputs.some(({ side }) => side !== "both"))
    return refused({ code: "side of mono", cell, most });
  return { ok: true, value: inputs };
};
