import { isolated } from "../core/lib/direction";
import { formatEntry } from "../core/lib/number";
import { LISTENER_KINDS } from "../core/model/kinds";
import type { ListenerKind } from "../core/model/setup";
import { type CodeOf, textOf } from "./coded";
import { formatGlimpse, type Glimpse } from "./glimpse";
import { clause } from "./words";

/** Where in a file something stands: "channels[2].pan". */
interface At {
  readonly at: string;
}

interface Named {
  readonly name: string;
}

/** What a field may hold: a sort of value, a range, or one of some. */
export type AllowedValue =
  | "text"
  | "list"
  | "whole number"
  | "true or false"
  | { readonly min: number; readonly max: number }
  | readonly Glimpse[];

const WHAT = {
  text: "text",
  list: "a list",
  "whole number": "a whole number",
  "true or false": "true or false",
} as const;

const allowedText = (allowed: AllowedValue): string => {
  if (typeof allowed === "string") return WHAT[allowed];
  if ("min" in allowed) return `a number from ${formatEntry(allowed.min)} to ${formatEntry(allowed.max)}`;
  return `one of ${allowed.map(formatGlimpse).join(", ")}`;
};

const notAllowed = (given: Glimpse, allowed: AllowedValue): string =>
  given === undefined ? "missing" : `${formatGlimpse(given)} is not ${allowedText(allowed)}`;

const noObject = (given: Glimpse): string =>
  `${formatGlimpse(given)}${given === undefined ? "" : " is not an object"}`;

/** What of a file was not taken as it stood, or was mended. */
const NOTES = {
  replaced: (v: At & { given: Glimpse; allowed: AllowedValue; used: Glimpse }) =>
    `${v.at}: ${notAllowed(v.given, v.allowed)}; ${formatGlimpse(v.used)} used.`,
  "left out": (v: At & { given: Glimpse; allowed: AllowedValue }) =>
    `${v.at}: ${notAllowed(v.given, v.allowed)}; left out.`,
  "left empty": ({ at }: At) => `${at}: missing; left empty.`,
  "too long": (v: At & { letters: number; kept: number }) =>
    `${v.at}: ${v.letters} characters are too many; the first ${v.kept} kept.`,
  "no object": ({ at, given }: At & { given: Glimpse }) => `${at}: ${noObject(given)}; defaults used.`,
  unknown: ({ at }: At) => `${at}: not known here; left out.`,
  "no ticks": ({ at, given }: At & { given: Glimpse }) => `${at}: ${noObject(given)}; none used.`,
  "no list of ticks": ({ at }: At) => `${at}: not a list; no ticks used.`,
  "bad ticks": ({ at, bad, all }: At & { bad: number; all: number }) =>
    `${at}: ${bad} of ${all} are not ticks; left out.`,
  "no date": ({ at }: At) => `${at}: not measured levels with a date; left out.`,
  "not square": ({ at, size }: At & { size: number }) =>
    `${at}: not ${size} rows of ${size}; the recording is left out.`,
  "id given": ({ name }: Named) => `${formatGlimpse(name)} had no id of its own and got one.`,
  "second drummer": ({ name }: Named) =>
    `${formatGlimpse(name)} was a second drummer and is a performer now.`,
  "no such bus": ({ name }: Named) =>
    `${formatGlimpse(name)} heard a bus that is not there and hears none now.`,
  "listener added": ({ kind }: { kind: ListenerKind }) =>
    `There was no ${LISTENER_KINDS[kind].name} among the listeners: added.`,
  "listener turned": ({ kind, name }: Named & { kind: ListenerKind }) =>
    `There was no ${LISTENER_KINDS[kind].name} among the listeners, and no room for one more: it is ${formatGlimpse(name)} now.`,
  "no such send": ({ name }: Named) =>
    `${formatGlimpse(name)} had a send of a channel that is not there or twice: removed.`,
  "no such feed": ({ index, isFree }: { index: number; isFree: boolean }) =>
    `Input ${index + 1} had a feed that is not there: ${isFree ? "it is free now" : "corrected"}.`,
  "no such reach": ({ name }: Named) =>
    `${formatGlimpse(name)} was for a listener who is not there or named twice: removed.`,
  "no such piece": ({ name }: Named) =>
    `${formatGlimpse(name)} was at a kit piece that is not there and is at none now.`,
  "no such figures": ({ name }: Named) =>
    `${formatGlimpse(name)} had figures of a channel that is not there or twice: removed.`,
  "check ended": () => "The check at the kit was for a listener who is not there: ended.",
  "hits removed": () => "The check at the kit had hits of a piece that is not there: removed.",
  "ticks removed": () => "The line check had ticks of free inputs or of nobody’s mixer: removed.",
  "trace ended": () => "The trace was about something that is not there: ended.",
  "no such first": () => "The listener who matters most is not there: it is the drummer now.",
  more: ({ count }: { count: number }) => `And ${count} more of the kind.`,
};

/** One thing of a file that was not taken as it stood, or was mended. */
export type ReadNote = CodeOf<typeof NOTES>;

/** A sentence about it. */
export const describeReadNote = (note: ReadNote): string => textOf(NOTES, note);

/** What a file can be, as a sentence calls it. */
export type FileWord = "setup" | "desk" | "setup for a helper" | "list of ticks";

interface Word {
  readonly what: FileWord;
}
/** What an engine said, in its words; may be "". */
interface Reason {
  readonly reason: string;
}

const reasonText = (reason: string): string => clause(reason) || "no reason given";

/** Why nothing of a file was taken. */
const REFUSALS = {
  "not ours": ({ what, given }: Word & { given: Glimpse }) =>
    `This is not a ${what} of Hatside: it is ${formatGlimpse(given)}.`,
  "other format": ({ what, given, format }: Word & { given: Glimpse; format: string }) =>
    `This is not a ${what} of Hatside: its format is ${formatGlimpse(given)}. Allowed: “${format}”.`,
  "not JSON": ({ what, reason }: Word & Reason) =>
    `This is not a ${what} of Hatside: it is not JSON (${isolated(reasonText(reason))}).`,
  "no version": ({ given, oldest, newest }: { given: Glimpse; oldest: number; newest: number }) =>
    `version: ${formatGlimpse(given)} is not a version. Allowed: ${oldest === newest ? newest : `${oldest} to ${newest}`}.`,
  newer: ({ what, version, newest }: Word & { version: number; newest: number }) =>
    `This ${what} is from a newer Hatside (its version is ${version}, this app reads up to ${newest}). Update the app, then open it again.`,
  "not migrated": ({ version, reason }: Reason & { version: number }) =>
    `This setup of version ${version} could not be brought to version ${version + 1}: ${reasonText(reason)}.`,
  "too many": ({ at, count, limit }: At & { count: number; limit: number }) =>
    `“${at}” holds ${count}: too many. Allowed: up to ${limit}.`,
  "long id": ({ at, letters, limit }: At & { letters: number; limit: number }) =>
    `“${at}” has ${letters} characters: too many. Allowed: up to ${limit}.`,
  "own fault": ({ what, reason }: Word & Reason) =>
    `Hatside cannot read this ${what}: ${reasonText(reason)}.`,
  "no setup": () => "There is no setup in what was handed over.",
  "from nowhere": () => "What was handed over does not say where it comes from.",
  "for nothing": () => "These ticks do not say which setup they are for.",
};

/** Why nothing of a file was taken, by code. */
export type ReadRefusal = CodeOf<typeof REFUSALS>;

/** Why, in a sentence. */
export const describeReadRefusal = (refusal: ReadRefusal): string => textOf(REFUSALS, refusal);
