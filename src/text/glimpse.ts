import { excerpt } from "../core/lib/direction";

/** As much of a value from outside as a sentence shows: plain values, the beginning of a text, and what sort of thing else. */
export type Glimpse =
  | string
  | number
  | boolean
  | null
  | undefined
  | { readonly a: "list" | "empty list" | "object" };

const THINGS = { list: "a list", "empty list": "an empty list", object: "an object" } as const;

/** A value of any kind as a sentence shows it. */
export const formatGlimpse = (value: Glimpse): string => {
  if (value === undefined) return "missing";
  if (value === null) return "nothing";
  if (typeof value === "string") return `“${excerpt(value)}”`;
  if (typeof value === "number") return String(value).replaceAll("-", "−");
  return typeof value === "object" ? THINGS[value.a] : String(value);
};
