import { beginning, excerpt } from "../core/lib/direction";
import type { Glimpse } from "../text/glimpse";
import type { AllowedValue, ReadNote, ReadRefusal } from "../text/reading";
import type { Range } from "./limits";

/** Where a reader says what it could not take. */
export type Say = (note: ReadNote) => void;

/**
 * Turns a value from outside into what it should be. What is missing (undefined) or wrong is said and replaced
 * by the default; too much of something throws `Refusal`. Nothing of the value itself is passed on but plain
 * texts, numbers and truth values.
 */
export type Reader<T> = (value: unknown, at: string, say: Say) => T;

/** A file that is not read at all, and why. */
export class Refusal extends Error {
  constructor(readonly why: ReadRefusal) {
    super(why.code);
  }
}

/** What an error says; "" where it says nothing. */
export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : "");

type Fields = { readonly [key: string]: unknown };

/** Whether a value is an object with fields, and no list. */
export const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** As much of a value of any kind as a sentence can show. */
export const glimpse = (value: unknown): Glimpse => {
  if (typeof value === "string") return beginning(value);
  if (Array.isArray(value)) return { a: value.length === 0 ? "empty list" : "list" };
  if (value === undefined || value === null) return value;
  return typeof value === "number" || typeof value === "boolean" ? value : { a: "object" };
};

const replace = <T>(value: unknown, at: string, say: Say, allowed: AllowedValue, fallback: T): T => {
  say({ code: "replaced", at, given: glimpse(value), allowed, used: glimpse(fallback) });
  return fallback;
};

/** A number in a range, both ends included; NaN and infinities are none. */
export const number =
  <F extends number | null>(range: Range, fallback: F): Reader<number | F> =>
  (value, at, say) =>
    typeof value === "number" && value >= range.min && value <= range.max
      ? value
      : replace(value, at, say, { min: range.min, max: range.max }, fallback);

/** A whole number in a range. */
export const whole = (range: Range, fallback: number): Reader<number> => {
  const read = number(range, fallback);
  return (value, at, say) =>
    typeof value === "number" && !Number.isInteger(value)
      ? replace(value, at, say, "whole number", fallback)
      : read(value, at, say);
};

/** Any text, kept as it is; of one that is too long the beginning is kept, and that is said. */
export const text =
  (fallback: string, most: number): Reader<string> =>
  (value, at, say) => {
    if (typeof value !== "string") return replace(value, at, say, "text", fallback);
    // Characters, as a field counts them: an emoji is one, though two in `length`.
    const letters = [...value];
    if (letters.length <= most) return value;
    say({ code: "too long", at, letters: letters.length, kept: most });
    return letters.slice(0, most).join("");
  };

/** True or false. */
export const yes =
  (fallback: boolean): Reader<boolean> =>
  (value, at, say) =>
    typeof value === "boolean" ? value : replace(value, at, say, "true or false", fallback);

/** One of some words or numbers. */
export const oneOf =
  <T extends string | number>(allowed: readonly T[], fallback: T): Reader<T> =>
  (value, at, say) =>
    allowed.find((each) => each === value) ?? replace(value, at, say, allowed, fallback);

/** What another reader takes, or null; missing is null and said. */
export const orNull =
  <T>(read: Reader<T>): Reader<T | null> =>
  (value, at, say) => {
    if (value === undefined) say({ code: "left empty", at });
    return value === null || value === undefined ? null : read(value, at, say);
  };

/** One of some words, or nothing at all: for a field that need not be there. Another word is said and left out. */
export const oneOfOrAbsent =
  <T extends string>(allowed: readonly T[]): Reader<T | undefined> =>
  (value, at, say) => {
    const known = allowed.find((each) => each === value);
    if (value !== undefined && known === undefined)
      say({ code: "left out", at, given: glimpse(value), allowed });
    return known;
  };

/** A list of at most so many; a longer one refuses the file, because a part of it would be lost. */
export const list =
  <T>(read: Reader<T>, limit: number): Reader<readonly T[]> =>
  (value, at, say) => {
    if (!Array.isArray(value)) return replace<T[]>(value, at, say, "list", []);
    if (value.length > limit) throw new Refusal({ code: "too many", at, count: value.length, limit });
    // Not map: it would pass over holes.
    return Array.from(value, (item, index) => read(item ?? null, `${at}[${index}]`, say));
  };

/** Left and right of something. */
export const sides =
  <T>(read: Reader<T>): Reader<readonly [T, T]> =>
  (value, at, say) => {
    const [left, right] = Array.isArray(value) ? value : [];
    return [read(left, `${at}[0]`, say), read(right, `${at}[1]`, say)];
  };

/**
 * An object with exactly these fields; others are said and left out, whatever they are called. A field that is read as
 * undefined is not there.
 */
export const fields = <T extends object>(readers: { readonly [K in keyof T]-?: Reader<T[K]> }): Reader<T> => {
  const known = Object.entries<Reader<unknown>>(readers);
  const from = (value: Fields, at: string, say: Say): T =>
    Object.fromEntries(
      known
        .map(([key, read]) => [
          key,
          read(Object.hasOwn(value, key) ? value[key] : undefined, join(at, key), say),
        ])
        .filter(([, taken]) => taken !== undefined),
    ) as T;
  return (value, at, say) => {
    if (!isFields(value)) {
      say({ code: "no object", at, given: glimpse(value) });
      return from({}, at, () => {});
    }
    for (const key of Object.keys(value)) {
      if (!Object.hasOwn(readers, key)) say({ code: "unknown", at: join(at, key) });
    }
    return from(value, at, say);
  };
};

/** The path of a field within an object; a name that is no plain word stands in quotes, and is cut where it is long. */
export const join = (at: string, key: string): string => {
  const name = /^\w{1,24}$/.test(key) ? key : `“${excerpt(key)}”`;
  return at === "" ? name : `${at}.${name}`;
};
