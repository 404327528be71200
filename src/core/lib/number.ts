import type { Seconds } from "../model/units";
import { excerpt } from "./direction";

/** What a typed text means as a number. */
export type Typed<Fault = NumberFault> =
  | { readonly state: "value"; readonly value: number }
  /** Half-typed: the user's, no error. */
  | { readonly state: "open" }
  | { readonly state: "wrong"; readonly why: Fault };

/** What a field allows. */
export interface NumberRule {
  /** Name of the field as the sentence begins with it. */
  readonly name: string;
  readonly min: number;
  readonly max: number;
  /** Unit as shown, such as "dB"; also accepted behind the number. */
  readonly unit: string;
  /** Only whole numbers. */
  readonly whole?: boolean;
  /** An empty text is a value of its own: what it is called ("off", "not known"). */
  readonly empty?: string;
}

/** Why a typed text is no number that a field allows. */
export type NumberFault = { readonly typed: string; readonly rule: NumberRule } & (
  | { readonly code: "no number" }
  | { readonly code: "not whole" }
  | { readonly code: "outside" }
);

/** Minus signs that people paste: hyphens, dashes and the true minus. */
const MINUSES = /[\u2010-\u2015\u2212\uFE63\uFF0D]/g;
/** Spaces of every kind, and the marks that come along with a paste. */
const SPACES = /[\s\u00A0\u2007\u2009\u202F\u200B-\u200F\u2060\uFEFF]/g;

/** A text with one kind of minus, a point as decimal separator and no spaces. */
export const plain = (text: string): string =>
  text.replace(SPACES, "").replace(MINUSES, "-").replace(/,/g, ".").toLowerCase();

/** A number as people read it: true minus, no "-0". */
export const formatNumber = (value: number, digits: number): string => {
  if (value === Number.POSITIVE_INFINITY) return "+∞";
  if (value === Number.NEGATIVE_INFINITY) return "−∞";
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
};

/** A number with its sign, "+" too; what is printed as nothing has none. */
export const formatSigned = (value: number, digits: number): string => {
  const text = formatNumber(value, digits);
  return Number.isFinite(value) && value > 0 && Number(text) !== 0 ? `+${text}` : text;
};

/** A time or length as a clock shows it, "2:07.3": a tenth is counted once it is over. */
export const formatClock = (seconds: Seconds): string => {
  // What is a whole tenth but for the digits of a computer is one.
  const tenths = Math.floor(seconds * 10 + 1e-6);
  return `${Math.floor(tenths / 600)}:${((tenths % 600) / 10).toFixed(1).padStart(4, "0")}`;
};

/** A share 0…1 in whole percent: "61 %". */
export const formatPercent = (share: number): string => `${formatNumber(100 * share, 0)} %`;

/** A number as a field shows it: as many digits as it has, at most six behind the point. */
export const formatEntry = (value: number): string => String(Number(value.toFixed(6))).replace("-", "−");

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;
const HALF = /^[+-]?\.?$/;

/** A typed text as a sentence shows it, without marks round it. */
export const asTyped = (text: string): string => excerpt(text.trim());

/** How much of a unit stands behind a number, in letters: typing "−3 dB" passes through "−3 d". */
const unitTyped = (bare: string, unit: string): number => {
  for (let length = unit.length; length > 0; length -= 1) {
    if (bare.endsWith(unit.slice(0, length))) return length;
  }
  return 0;
};

/**
 * Reads a typed number by a rule: a comma is a decimal point, every minus is a minus, the unit may stand behind.
 * Nothing is clamped: what is out of range is said.
 * @example readNumber("−3 dB", { name: "Trim", min: -60, max: 20, unit: "dB" }) // { state: "value", value: -3 }
 */
export const readNumber = (text: string, rule: NumberRule): Typed => {
  const unit = plain(rule.unit);
  const typed = plain(text);
  const behind = unitTyped(typed, unit);
  const bare = typed.slice(0, typed.length - behind);
  const wrong = (code: NumberFault["code"]): Typed => ({ state: "wrong", why: { code, typed: text, rule } });
  if (HALF.test(bare) && behind === 0) return { state: "open" };
  if (!NUMBER.test(bare)) return wrong("no number");
  if (behind > 0 && behind < unit.length) return { state: "open" };
  const value = Number(bare);
  if (rule.whole && !Number.isInteger(value)) return wrong("not whole");
  if (value < rule.min || value > rule.max) return wrong("outside");
  return { state: "value", value: value === 0 ? 0 : value };
};
