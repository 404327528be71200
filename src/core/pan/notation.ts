import { levelOf } from "../level/decibels";
import { plain } from "../lib/number";
import type { Db, Pan } from "../model/units";
import { type PanSettings, panGains } from "./laws";
import {
  noPan,
  OPEN,
  PAN_STYLES,
  type PanNotation,
  readClock,
  share,
  type TypedPan,
} from "./notation-styles";

const CENTRE = ["c", "<c>", "centre", "center"];
const SIDES = new Map([
  ["l", -1],
  ["left", -1],
  ["<", -1],
  ["r", 1],
  ["right", 1],
  [">", 1],
]);
const SIGNS = new Map([...SIDES, ["-", -1], ["+", 1]]);
const begins = (text: string, words: Iterable<string>): boolean =>
  [...words].some((word) => word.startsWith(text));

/** What stands before the digits, the digits, a percent sign, and what stands behind. */
const PARTS = /^([a-z<>+-]*)([\d.]*)(%?)([a-z<>]*)$/;
const NUMBER = /^(\d+\.?\d*|\.\d+)$/;

/**
 * Reads a pan in any notation: "L30", "30L", "-30", "<30", "30% L", "C", "10:30"; a number without side or sign is in
 * the console's own style. A number with a side or sign counts the console's steps (63 for MIDI, percent for a clock).
 * @returns the pan −1…+1, not rounded; nothing is clamped: what is out of range is said
 * @example parsePan("L30", { panStyle: "steps", panSteps: 60 }) // { state: "value", value: -0.5 }
 */
export const parsePan = (text: string, notation: PanNotation): TypedPan => {
  const style = PAN_STYLES[notation.panStyle];
  const typed = plain(text);
  if (/^\d+:/.test(typed)) return readClock(typed, text);
  const nonsense = noPan({ code: "no pan", typed: text, notation });
  const parts = PARTS.exec(typed);
  if (!parts) return nonsense;
  const [, before = "", digits = "", percent = "", after = ""] = parts;
  if (percent + after === "" && CENTRE.includes(before) && digits === "") return { state: "value", value: 0 };
  if (digits === "" || digits === ".") {
    const words = digits === "" ? [...SIGNS.keys(), ...CENTRE] : SIGNS.keys();
    return percent + after === "" && begins(before, words) ? OPEN : nonsense;
  }
  if (style.bare && before + percent + after === "") return style.bare(digits, text);
  const side = before === "" ? 1 : SIGNS.get(before);
  if (!NUMBER.test(digits) || side === undefined || (before !== "" && after !== "")) return nonsense;
  const behind = after === "" ? side : SIDES.get(after);
  if (behind === undefined) return begins(after, SIDES.keys()) ? OPEN : nonsense;
  const of = percent === "" ? style.sided(notation) : 100;
  if (Number(digits) > of)
    return noPan({ code: "outside steps", typed: text, of, unit: percent === "" ? "" : "%" });
  return { state: "value", value: share(behind * Number(digits), of) };
};

/** Whole steps from centre, the nearest; the same both sides. */
const nearest = (pan: Pan, steps: number): number => Math.sign(pan) * Math.round(Math.abs(pan) * steps);

/**
 * A pan as the console shows it, to its nearest step: "L30", "C", "R12"; 1…127; "10:30".
 * @example printPan(-0.3, { panStyle: "clock", panSteps: 100 }) // "10:30"
 */
export const formatPan = (pan: Pan, notation: PanNotation): string => {
  const style = PAN_STYLES[notation.panStyle];
  return style.print(nearest(pan, style.steps(notation)));
};

/** A pan on the console's steps, and what that costs. */
export interface RoundedPan {
  readonly pan: Pan;
  /** Largest change of either side's level, dB. A side that goes to or from silence is left out: the louder one tells. */
  readonly error: Db;
}

const change = (from: Db, to: Db): Db =>
  Number.isFinite(from) && Number.isFinite(to) ? Math.abs(to - from) : 0;

/** The nearest step of the console, and the change of level by the console's law that the rounding makes. */
export const roundPan = (pan: Pan, console: PanNotation & PanSettings): RoundedPan => {
  const steps = PAN_STYLES[console.panStyle].steps(console);
  const rounded = share(nearest(pan, steps), steps);
  const from = panGains(console, pan).map(levelOf);
  const to = panGains(console, rounded).map(levelOf);
  return { pan: rounded, error: Math.max(...from.map((level, side) => change(level, to[side] as Db))) };
};

/** The pan as far on the other side, exactly: CC n of a MIDI pan becomes 128 − n. */
export const mirrorPan = (pan: Pan): Pan => (pan === 0 ? 0 : -pan);

/**
 * A pan moved by so many of the console's steps; from between two steps the next one is the first. Stops at the ends.
 * @param by whole steps, positive to the right
 */
export const stepPan = (pan: Pan, notation: PanNotation, by: number): Pan => {
  const steps = PAN_STYLES[notation.panStyle].steps(notation);
  const on = nearest(pan, steps);
  const exact = Math.abs(pan * steps - on) < 1e-6;
  const from = exact || by === 0 ? on : by > 0 ? Math.floor(pan * steps) : Math.ceil(pan * steps);
  return share(Math.max(-steps, Math.min(steps, from + by)), steps);
};
