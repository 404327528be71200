import { asTyped, formatEntry, type NumberRule, plain, readNumber } from "../core/lib/number";
import type { ChannelKind, TapPoint } from "../core/model/setup";
import type { Side } from "../core/model/units";
import { LIMITS } from "../document/limits";
import { TAP_NAMES } from "../text/taps";

/** What a cell means, or what is wrong with it as a sentence: which value, what is allowed. */
export type Cell<T> = { readonly value: T } | { readonly wrong: string };

const DANGEROUS = /^[=+\-@\t\r\n'\uFF1D\uFF0B\uFF0D\uFF20]/;
const HARMLESS = /^[+-]?\d+([.,]\d+)?(e[+-]?\d+)?$/i;

/**
 * A cell that no spreadsheet takes for a formula: one that begins with = + - @, a tab or a line end gets an
 * apostrophe before it. A plain number does nothing and stays a number. One that begins with an apostrophe gets a second, so that
 * `unguard` always finds the same text again.
 */
export const guard = (cell: string): string =>
  DANGEROUS.test(cell) && !HARMLESS.test(cell) ? `'${cell}` : cell;

/** A cell without the apostrophe that made it harmless. */
export const unguard = (cell: string): string =>
  cell.startsWith("'") && DANGEROUS.test(cell.slice(1)) ? cell.slice(1) : cell;

const YES = ["yes", "y", "true", "1", "x", "on", "✓"];
const NO = ["no", "n", "false", "0", "off", "", "–", "-"];

/** Yes or no; `more` gives further words that mean yes, then further ones that mean no. */
export const readYes = (
  cell: string,
  field: string,
  more: readonly [readonly string[], readonly string[]] = [[], []],
): Cell<boolean> => {
  const word = cell.trim().toLowerCase();
  if ([...YES, ...more[0]].includes(word)) return { value: true };
  if ([...NO, ...more[1]].includes(word)) return { value: false };
  const words = [more[0][0] ?? "yes", more[1][0] ?? "no"].join(" or ");
  return { wrong: `${field}: “${asTyped(cell)}” is neither yes nor no. Allowed: ${words}, or nothing.` };
};

/** A number by a rule, also as spreadsheets shorten it (1E-07). */
export const readCellNumber = (cell: string, rule: NumberRule): Cell<number> => {
  const short = plain(cell);
  const text = /^[+-]?[\d.]+e[+-]?\d+$/.test(short) ? Number(short) : null;
  if (text !== null && text >= rule.min && text <= rule.max) return { value: text };
  const typed = readNumber(cell, rule);
  if (typed.state === "value") return { value: typed.value };
  if (typed.state === "wrong") return { wrong: typed.why };
  return {
    wrong: `${rule.name}: “${asTyped(cell)}” is only the beginning of a number. Allowed: ${formatEntry(rule.min)} to ${formatEntry(rule.max)} ${rule.unit}.`,
  };
};

const KINDS: { readonly [kind in ChannelKind]: RegExp } = {
  talkback: /\b(talk|talkback|announce|md mic)\b/,
  playback: /\b(playback|tracks?|click|backing tracks?|stems?|cues?)\b/,
  vocal: /\b(voices?|vocals?|vox|lead|bv|backing|choir|singers?|alto|soprano|tenor)\b/,
  drum: /\b(drums?|kick|bd|snare|sd|hat|hi hat|hihat|hh|toms?|floor|overheads?|oh|ride|crash|cymbals?|percussion|perc|congas?|bongos?|cowbell|djembe|cajon)\b/,
  bass: /\bbass\b/,
  guitar: /\b(guitars?|gtr|git|ukulele|banjo|mandolin)\b/,
  keys: /\b(keys|keyboards?|piano|organ|synth|pads?|clav)\b/,
  horn: /\b(horns?|trumpet|trombone|sax|saxophone|flute|clarinet|brass|tuba)\b/,
  other: /\bother\b/,
};

/** What kind of channel a name sounds like. Words of the trade, no source. */
export const kindOfName = (name: string): ChannelKind => {
  const words = name.toLowerCase().replace(/[^a-z]+/g, " ");
  const kinds = Object.keys(KINDS) as ChannelKind[];
  return kinds.find((kind) => KINDS[kind].test(words)) ?? "other";
};

/** A kind by its own word or by one of its like. */
export const readKind = (cell: string): Cell<ChannelKind> => {
  const word = cell.trim().toLowerCase();
  if (Object.hasOwn(KINDS, word)) return { value: word as ChannelKind };
  const kind = kindOfName(word);
  if (kind !== "other") return { value: kind };
  return {
    wrong: `Kind: “${asTyped(cell)}” is not known. Allowed: ${Object.keys(KINDS).sort().join(", ")}.`,
  };
};

const TAP_WORDS = new Map<string, TapPoint>([
  ...(Object.entries(TAP_NAMES) as [TapPoint, string][]).map(([tap, name]): [string, TapPoint] => [
    name.toLowerCase().replace("-", " "),
    tap,
  ]),
  // As older versions of this app wrote them.
  ["before filter", "pre-hpf"],
  ["before eq", "pre-eq"],
  ["before fader", "pre-fader"],
  ["after fader", "post-fader"],
  ["input", "pre-hpf"],
  ["pre", "pre-fader"],
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
  if (tap) return { value: tap };
  return {
    wrong: `Tap point: “${asTyped(cell)}” is not known. Allowed: ${Object.values(TAP_NAMES).join(", ")}.`,
  };
};

/** One input of a cell. */
export interface InputWord {
  readonly input: number;
  readonly side: "both" | Side;
}

const CHANNELS = { l: "left", r: "right", m: "both" } as const;
const INPUTS = /^\d+ ?[lrm]?([ /+&,;-]+\d+ ?[lrm]?)*$/;
const INPUT_RANGE = `1 to ${LIMITS.inputs}`;

/** The inputs of a source: "5"; "5 6" or "5/6" left and right of two channels; "5L 6R", and "5M" for both in one. */
export const readInputs = (cell: string, channels: 1 | 2): Cell<readonly InputWord[]> => {
  const text = cell.trim().toLowerCase();
  if (text === "") return { value: [] };
  if (!INPUTS.test(text))
    return {
      wrong: `Input: “${asTyped(cell)}” is no input. Allowed: ${INPUT_RANGE}, for two channels such as 5L 6R.`,
    };
  const words = [...text.matchAll(/(\d+) ?([lrm]?)/g)];
  const pair = channels === 2 && words.length === 2 && words.every((w) => w[2] === "");
  const inputs = words.map(([, number, letter], i): InputWord => {
    const named = letter ? CHANNELS[letter as keyof typeof CHANNELS] : "both";
    return { input: Number(number), side: pair ? (i === 0 ? "left" : "right") : named };
  });
  const far = inputs.find(({ input }) => input < 1 || input > LIMITS.inputs);
  if (far) return { wrong: `Input: ${far.input} is outside ${INPUT_RANGE}.` };
  if (channels === 1 && inputs.some(({ side }) => side !== "both"))
    return {
      wrong: `Input: “${asTyped(cell)}” names a side, but the channel has one channel. Allowed: ${INPUT_RANGE}.`,
    };
  return { value: inputs };
};
