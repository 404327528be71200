import { isolated } from "../core/lib/direction";
import { formatEntry } from "../core/lib/number";
import type { SetupFile } from "./schema";

/** One thing that can be said of a part of a setup. */
export interface ComparedField<T> {
  /** What it is called in a sentence; "" where the words speak for themselves. */
  readonly what: string;
  /** What is compared. */
  readonly value: (thing: T) => unknown;
  /** The value in words. */
  readonly print: (thing: T, setup: SetupFile) => string;
}

/** A number with its unit; `none` where nobody entered it. */
export const ofNumber = <T>(
  what: string,
  unit: string,
  value: (thing: T) => number | null,
  none = "not entered",
): ComparedField<T> => ({
  what,
  value,
  print: (thing) => {
    const n = value(thing);
    return n === null ? none : `${formatEntry(n)}${unit && ` ${unit}`}`;
  },
});

/** One of a list. */
export const ofWord = <T, W extends string | number>(
  what: string,
  value: (thing: T) => W,
  words: { readonly [word in W]: string },
): ComparedField<T> => ({ what, value, print: (thing) => words[value(thing)] });

/** What is so or not. */
export const ofYes = <T>(value: (thing: T) => boolean, ifSo: string, ifNot: string): ComparedField<T> => ({
  what: "",
  value,
  print: (thing) => (value(thing) ? ifSo : ifNot),
});

/** What a person wrote; `none` where they wrote nothing. */
export const ofText = <T>(what: string, value: (thing: T) => string, none = "nothing"): ComparedField<T> => ({
  what,
  value,
  print: (thing) => isolated(value(thing)) || none,
});
