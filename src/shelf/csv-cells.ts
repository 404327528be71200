import { asTyped, type NumberRule, plain, printEntry, readNumber } from "../core/number";
import { TAP_NAMES } from "../core/patch/taps";
import type { SourceKind, TapPoint } from "../core/setup";
import type { Side } from "../core/units";
import { LIMITS } from "../document/limits";

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
    wrong: `${rule.name}: “${asTyped(cell)}” is only the beginning of a number. Allowed: ${printEntry(rule.min)} to ${printEntry(rule.max)} ${rule.unit}.`,
  };
};

const KINDS: { readonly [kind in SourceKind]: RegExp } = {
  talk: /\b(talk|talkback|announce|md mic)\b/,
  playback: /\b(playback|tracks?|click|backing tracks?|stems?|cues?)\b/,
  voice: /\b(voices?|vocals?|vox|lead|bv|backing|choir|singers?|alto|soprano|tenor)\b/,
  drum: /\b(drums?|kick|bd|snare|sd|hat|hi hat|hihat|hh|toms?|floor|overheads?|oh|ride|crash|cymbals?|percussion|perc|congas?|bongos?|cowbell|djembe|cajon)\b/,
  bass: /\bbass\b/,
  guitar: /\b(guitars?|gtr|git|ukulele|banjo|mandolin)\b/,
  keys: /\b(keys|keyboards?|piano|organ|synth|pads?|clav)\b/,
  horn: /\b(horns?|trumpet|trombone|sax|saxophone|flute|clarinet|brass|tuba)\b/,
  other: /\bother\b/,
};

/** What kind of source a name sounds like. Words of the trade, no source. */
export const kindOfName = (name: string): SourceKind => {
  const words = name.toLowerCase().replace(/[^a-z]+/g, " ");
  const kinds = Object.keys(KINDS) as SourceKind[];
  return kinds.find((kind) => KINDS[kind].test(words)) ?? "other";
};

/** A kind by its own word or by one of its like. */
export const readKind = (cell: string): Cell<SourceKind> => {
  const word = cell.trim().toLowerCase();
  if (Object.hasOwn(KINDS, word)) return { value: word as SourceKind };
  const kind = kindOfName(word);
  if (kind !== "other") return { value: kind };
  return {
    wrong: `Kind: “${asTyped(cell)}” is not known. Allowed: ${Object.keys(KINDS).sort().join(", ")}.`,
  };
};

const TAP_WORDS = new Map<string, TapPoint>([
  ...(Object.entries(TAP_NAMES) as [TapPoint, string][]).map(([tap, name]): [string, TapPoint] => [
    name.toLowerCase(),
    tap,
  ]),
  ["input", "before-filter"],
  ["pre eq", "before-eq"],
  ["pre fader", "before-fader"],
  ["pre", "before-fader"],
  ["post fader", "after-fader"],
  ["post", "after-fader"],
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

/** One slot of a cell. */
export interface SlotWord {
  readonly slot: number;
  readonly channel: "both" | Side;
}

const CHANNELS = { l: "left", r: "right", m: "both" } as const;
const SLOTS = /^\d+ ?[lrm]?([ /+&,;-]+\d+ ?[lrm]?)*$/;
const SLOT_RANGE = `1 to ${LIMITS.slots}`;

/** The slots of a source: "5"; "5 6" or "5/6" left and right of two channels; "5L 6R", and "5M" for both in one. */
export const readSlots = (cell: string, channels: 1 | 2): Cell<readonly SlotWord[]> => {
  const text = cell.trim().toLowerCase();
  if (text === "") return { value: [] };
  if (!SLOTS.test(text))
    return {
      wrong: `Slot: “${asTyped(cell)}” is no slot. Allowed: ${SLOT_RANGE}, for two channels such as 5L 6R.`,
    };
  const words = [...text.matchAll(/(\d+) ?([lrm]?)/g)];
  const pair = channels === 2 && words.length === 2 && words.every((w) => w[2] === "");
  const slots = words.map(([, number, letter], i): SlotWord => {
    const named = letter ? CHANNELS[letter as keyof typeof CHANNELS] : "both";
    return { slot: Number(number), channel: pair ? (i === 0 ? "left" : "right") : named };
  });
  const far = slots.find(({ slot }) => slot < 1 || slot > LIMITS.slots);
  if (far) return { wrong: `Slot: ${far.slot} is outside ${SLOT_RANGE}.` };
  if (channels === 1 && slots.some(({ channel }) => channel !== "both"))
    return {
      wrong: `Slot: “${asTyped(cell)}” names a side, but the source has one channel. Allowed: ${SLOT_RANGE}.`,
    };
  return { value: slots };
};
