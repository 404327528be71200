import { LONGEST_EXTRA } from "../model/limits";
import type { Db, Pan, Side } from "../model/units";
import type { InputKind } from "./kinds";
import type { ListLine } from "./list";
import { joinedExtra } from "./list-extra";
import type { NamedFeed } from "./list-feeds";
import type { InputName } from "./names";

/** A line, and its name taken apart. */
export interface NamedLine {
  readonly line: ListLine;
  readonly input: InputName;
}

/** Microphones apart from each other, of which two are never one stereo channel. Common practice, no source. */
const APART: readonly InputKind[] = ["drum", "audience"];

const wordsOf = ({ words, numbers, microphone }: InputName): string =>
  [[...words].sort().join(" "), numbers.join(" "), microphone].join("|");

const louder = (...levels: readonly (Db | null | undefined)[]): Db | null => {
  const known = levels.filter((level) => level !== null && level !== undefined);
  return known.length > 0 ? Math.max(...known) : null;
};

/** Pan of the two as one; undefined where they are no two sides of it. */
const panOf = (left: Pan | undefined, right: Pan | undefined): Pan | undefined => {
  if (left === right) return left ?? 0;
  return left !== undefined && right !== undefined && left === -right && left < 0 ? 0 : undefined;
};

const feedOf = (feeds: readonly NamedFeed[] | undefined, side: Side): NamedFeed[] =>
  (feeds ?? []).map((feed) => ({ ...feed, side }));

/** What must be the same of both. */
const restOf = ({ says }: ListLine): string =>
  JSON.stringify([says.kind, says.piece, says.muted, says.inverted, says.keepSides, says.sends]);

const joined = (first: NamedLine, second: NamedLine): ListLine | null => {
  const { side } = first.input;
  const isPair = side !== null && second.input.side !== null && side !== second.input.side;
  if (!isPair || wordsOf(first.input) !== wordsOf(second.input)) return null;
  if (first.input.kind !== second.input.kind || APART.includes(first.input.kind)) return null;
  const [left, right] = side === "left" ? [first.line, second.line] : [second.line, first.line];
  const pan = panOf(left.says.pan, right.says.pan);
  if (pan === undefined || restOf(left) !== restOf(right)) return null;
  const { pan: _, gatedRms: __, peak: ___, feeds: ____, extra: _____, ...says } = left.says;
  const extra = joinedExtra(left.says.extra, right.says.extra);
  const feeds = [...feedOf(left.says.feeds, "left"), ...feedOf(right.says.feeds, "right")];
  // Both on one fader, or each on its own.
  const numbers = [...new Set([...left.numbers, ...right.numbers])];
  if (numbers.length > 2) return null;
  if (extra.some(({ value }) => [...value].length > LONGEST_EXTRA)) return null;
  const isSaid = (field: "pan" | "gatedRms" | "peak") =>
    left.says[field] !== undefined || right.says[field] !== undefined;
  return {
    name: first.input.base,
    numbers,
    says: {
      ...says,
      lines: 2,
      ...(isSaid("pan") ? { pan } : {}),
      ...(isSaid("gatedRms") ? { gatedRms: louder(left.says.gatedRms, right.says.gatedRms) } : {}),
      ...(isSaid("peak") ? { peak: louder(left.says.peak, right.says.peak) } : {}),
      ...(feeds.length > 0 ? { feeds } : {}),
      ...(extra.length > 0 ? { extra } : {}),
    },
    otherwise: { ...left.otherwise, lines: 2, pan: 0, keepSides: true },
  };
};

/** Lines after joining, and how many pairs became one. */
export interface JoinedLines {
  readonly lines: readonly ListLine[];
  readonly pairs: readonly ListLine[];
}

/**
 * Two neighbouring lines that differ in nothing but left and right become one stereo channel: pans that mirror each other
 * its centre, the louder level and peak its own. Drum and audience microphones stay two; so do lines of which the setup
 * has a channel by the very name. Common practice, no source.
 * @param known names of the setup's channels, in small letters
 */
export const joinSides = (lines: readonly NamedLine[], known: ReadonlySet<string>): JoinedLines => {
  const all: ListLine[] = [];
  const pairs: ListLine[] = [];
  const isKnown = ({ line }: NamedLine): boolean => known.has(line.name.toLowerCase());
  for (let at = 0; at < lines.length; at += 1) {
    const [first, second] = [lines[at] as NamedLine, lines[at + 1]];
    const pair = second && !isKnown(first) && !isKnown(second) ? joined(first, second) : null;
    all.push(pair ?? first.line);
    if (pair) {
      pairs.push(pair);
      at += 1;
    }
  }
  return { lines: all, pairs };
};
