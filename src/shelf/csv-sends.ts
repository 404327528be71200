import type { ListBus, ListSend, NamedSend } from "../core/inputs/list-sends";
import type { NumberRule } from "../core/lib/number";
import { refused } from "../core/lib/result";
import type { SendTap } from "../core/model/setup";
import type { Pan } from "../core/model/units";
import { RANGES } from "../document/limits";
import { TAP_NAMES } from "../text/taps";
import { type Cell, readCellNumber } from "./csv-cells";

/** Head of the column of a bus: "Stereo bus 5 & 6: Drums", "Mono bus: Fold-back". */
const HEAD = /^(stereo|mono) bus((?: ?&? ?\d{1,3}){0,2}) ?:(.*)$/is;

/** The bus whose sends a column holds; null for any other column. */
export const busOfHead = (head: string): ListBus | null => {
  const [, width = "", numbers = "", name = ""] = HEAD.exec(head.trim()) ?? [];
  if (width === "") return null;
  return {
    name: name.replace(/[\s\p{Cc}]+/gu, " ").trim(),
    numbers: [...numbers.matchAll(/\d+/g)].map(Number).filter((n) => n >= RANGES.number.min),
    stereo: width.toLowerCase() === "stereo",
  };
};

/** Head of the column of a bus. */
export const headOfBus = ({ name, numbers, stereo }: ListBus): string =>
  `${stereo ? "Stereo" : "Mono"} bus${numbers.length > 0 ? ` ${numbers.join(" & ")}` : ""}: ${name}`;

const LEVEL: NumberRule = { name: "Send", ...RANGES.send, unit: "dB" };
const SILENT = "−∞";

/** A send as it is written: "post-fader −6", "pre-fader −∞ L30 off". The tap point stands first, so that no cell begins as a formula. */
export const sendText = (
  { tap, level, pan, on }: ListSend,
  digits: (level: number) => string,
  panText: (pan: Pan) => string,
): string =>
  [
    TAP_NAMES[tap],
    level === null ? SILENT : digits(level),
    ...(pan === null ? [] : [panText(pan)]),
    ...(on ? [] : ["off"]),
  ].join(" ");

const TAPS = new Map<string, SendTap>([
  ["pre", "pre-fader"],
  ["pre-fader", "pre-fader"],
  ["post", "post-fader"],
  ["post-fader", "post-fader"],
]);
const SILENCES = [SILENT, "-∞", "-inf", "−inf", "inf", "∞"];
const IN = ["x", "yes", "y", "on", "✓"];
const OUT = ["no", "n", "out", "–", "-", "—"];

type Said = Omit<NamedSend, "bus">;

const wordOf = (word: string, readPan: (text: string) => Cell<Pan>): Cell<Said> => {
  const small = word.toLowerCase();
  const tap = TAPS.get(small);
  if (tap) return { ok: true, value: { tap } };
  if (SILENCES.includes(small)) return { ok: true, value: { level: null } };
  if (IN.includes(small)) return { ok: true, value: { on: true } };
  if (small === "off") return { ok: true, value: { on: false } };
  if (small === "db") return { ok: true, value: {} };
  const pan = /^([lr]|c$)/i.test(word) ? readPan(word) : null;
  if (pan) return pan.ok ? { ok: true, value: { pan: pan.value } } : pan;
  const level = readCellNumber(word, LEVEL);
  return level.ok ? { ok: true, value: { level: level.value } } : level;
};

/** What a cell under a bus says of the channel's send: tap point, level, pan, off, in any order; "x" sends it, "no" does not. */
export const readSend = (cell: string, readPan: (text: string) => Cell<Pan>): Cell<Said> => {
  if (OUT.includes(cell.trim().toLowerCase())) return { ok: true, value: { out: true } };
  let said: Said = {};
  for (const word of cell.trim().split(/\s+/)) {
    const read = wordOf(word, readPan);
    if (!read.ok) return refused({ code: "send", cell });
    said = { ...said, ...read.value };
  }
  return { ok: true, value: said };
};
